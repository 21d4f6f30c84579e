"""What moved under a kept script: each slot as it was when it was written, against today's fact."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from pipeline.contracts.facts import Fact
from pipeline.contracts.files import as_written
from pipeline.contracts.slots_moved import ScriptMoved, SlotMove, SlotMoved, SlotReading
from pipeline.slots.filled import wrong_with
from pipeline.slots.marked_up import Block, Slot
from pipeline.wording.fact_forms import FORMS, in_form, sign_of

AS_WRITTEN = ("value", "low", "high")


def slots_of(blocks: Iterable[Block]) -> list[Slot]:
    return [slot for block in blocks for slot in block.slots]


def script_moved(
    topic: str, file: str, slots: Sequence[Slot], then: Iterable[Fact], now: Iterable[Fact]
) -> ScriptMoved:
    """`then` are the facts when it was written, `now` those of today."""
    known = {fact.id: as_written(fact) for fact in now}
    before = {fact.id: fact for fact in then}
    found = (_moved(slot, before.get(slot.fact), known) for slot in slots)
    moved = [each for each in found if each]
    return ScriptMoved(topic=topic, file=file, slots=len(slots), moved=moved)


def _moved(slot: Slot, then: Fact | None, facts: Mapping[str, Fact]) -> SlotMoved | None:
    """None of a slot whose fact is to the digit what it was."""
    wrong, now = wrong_with(slot, facts), facts.get(slot.fact)
    read, was = _reading(now, slot), _reading(then, slot)
    if wrong:
        moves: list[SlotMove] = ["no form" if now else "gone"]
    elif then is None or now is None or was is None or read is None:
        moves = ["new"]
    else:
        said = was.said != read.said
        moves = [*(["said"] if said else _by_value(then, now)), *_more(then, now)]
    if not moves:
        return None
    return SlotMoved(
        line=slot.line,
        column=slot.column,
        fact=slot.fact,
        form=slot.form,
        moves=moves,
        was=was,
        now=None if wrong else read,
        instead=wrong or "",
    )


def _by_value(then: Fact, now: Fact) -> Iterator[SlotMove]:
    """What is said alike may be another number all the same."""
    if any(getattr(then, name) != getattr(now, name) for name in AS_WRITTEN):
        yield "value"


def _more(then: Fact, now: Fact) -> Iterator[SlotMove]:
    if sign_of(then) * sign_of(now) < 0:
        yield "direction"
    if then.verdict != now.verdict:
        yield "verdict"
    if then.second != now.second:
        yield "second"


def _reading(fact: Fact | None, slot: Slot) -> SlotReading | None:
    """None where there is no such fact, or it has no such form."""
    if fact is None or slot.form[:1].lower() + slot.form[1:] not in FORMS:
        return None
    said = in_form(fact, slot.form)
    if said is None:
        return None
    return SlotReading(said=said, shown=fact.display, verdict=fact.verdict, second=fact.second)
