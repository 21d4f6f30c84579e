"""What moved under a kept script in words, line by line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pipeline.contracts.slots_moved import ScriptMoved, SlotMove, SlotMoved, SlotReading
from pipeline.wording import numbers

INDENT = "  "


def lines_of(found: ScriptMoved, written: Sequence[str]) -> Iterator[str]:
    """Each line of the script that has a slot that moved, what moved in it; then how many.

    `written` are the lines of the file.
    """
    last = 0
    for slot in found.moved:
        if slot.line != last:
            last = slot.line
            yield f"{found.file}:{slot.line}: {' '.join(written[slot.line - 1].split())}"
        yield f"{INDENT}{slot.fact} | {slot.form}: {_said(slot)}"
    yield _summed(found)


def _said(slot: SlotMoved) -> str:
    if slot.now is None:
        before = f"; it was “{slot.was.said}”" if slot.was else ""
        return f"{slot.instead}{before}"
    if slot.was is None or "new" in slot.moves:
        return f"“{slot.now.said}” today; written since, so there is no earlier value"
    return "; ".join(_moves(slot.moves, slot.was, slot.now))


def _moves(moves: Sequence[SlotMove], was: SlotReading, now: SlotReading) -> Iterator[str]:
    figures = f" ({was.shown}, now {now.shown})" if was.shown != now.shown else ""
    if "said" in moves:
        yield f"“{was.said}” is now “{now.said}”{figures}"
    elif "value" in moves and figures:
        yield f"still “{now.said}”{figures}"
    elif "value" in moves:
        yield f"still “{now.said}”, and shown alike: later digits, or its interval, moved"
    if "direction" in moves:
        yield "it goes the other way now: read the words around it"
    if "verdict" in moves:
        before, after = was.verdict or "none", now.verdict or "none"
        yield f"verdict was {before}, is {after}: read the words around it"
    if "second" in moves:
        then, today = was.second or "none", now.second or "none"
        yield f"second verdict was {then}, is {today}: read the words around it"


def _summed(found: ScriptMoved) -> str:
    slots = numbers.counted(found.slots, "number")
    if not found.moved:
        return f"{found.file}: {slots}, none moved since it was written"
    return f"{found.file}: {slots}, of which {len(found.moved)} to look at"
