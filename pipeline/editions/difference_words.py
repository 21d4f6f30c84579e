"""What differs, in words: causes, and moved numbers as was and is; for a terminal and a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from pipeline.contracts.editions import Causes, FactMoved, Moved, Said
from pipeline.contracts.selection import Fix
from pipeline.text import capitalised
from pipeline.wording import labels, numbers
from pipeline.wording.confidence import interval_heading, level_shown

MOST = 12  # of a kind of cause, written out; the rest are counted
LONGEST = 60  # signs of a setting's value
NOTHING = "Nothing on record explains it: data, corrections, settings and code are the same."


def causes_said(causes: Causes) -> list[str]:
    """Sentences on what both were made of; any of it may be behind what moved."""
    said = [f"The topic’s data differ: {' then '.join(causes.data)}."] if causes.data else []
    fixes = causes.corrections
    for word, moved in (("new", fixes.new), ("withdrawn", fixes.withdrawn)):
        lines = [f"{word} correction: {fix_said(fix)}." for fix in moved]
        said += _first(lines, f"{word} correction")
    settings = [
        f"setting {item.where}: was {short(item.was)}, is {short(item.now)}."
        for item in causes.settings
    ]
    said += _first(settings, "setting")
    said += ["The program’s code or its libraries differ."] if causes.code else []
    said += [_earlier(*causes.earlier)] if causes.earlier else []
    return said or [NOTHING]


def _earlier(then: int, now: int) -> str:
    """How many looks of earlier builds were counted, which moves a verdict and no number."""
    more = "more" if now > then else "fewer"
    counts = f"{numbers.shown(now, 0)} now, {numbers.shown(then, 0) if then else 'none'} then"
    moves = "a verdict can move for that alone, and an interval widen"
    if now < then:
        moves = "a verdict can move for that alone, and an interval narrow"
    return f"The headlines are counted with {more} looks of earlier builds ({counts}): {moves}."


def _first(lines: list[str], noun: str) -> list[str]:
    """The first of many, and how many more there are."""
    more = len(lines) - MOST
    kept = [capitalised(line) for line in lines[:MOST]]
    return kept + ([f"And {numbers.counted(more, f'more {noun}')}."] if more > 0 else [])


def fix_said(fix: Fix) -> str:
    """A correction in one line: where, from what to what, why."""
    return f"{fix_moved(fix)} ({fix.reason}; {fix.source})"


def fix_moved(fix: Fix) -> str:
    """Where, and from what to what."""
    where = ", ".join(f"{name} {value}" for name, value in fix.place.items())
    was = f"{labels.field_label(fix.field)} was {fix.old or 'blank'}"
    return f"{where}: {was}, is {fix.new or 'blank'}"


def short(value: Any) -> str:
    """A setting's value in a line."""
    if value is None:
        return "not set"
    text = str(value)
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"


def facts_said(facts: Iterable[FactMoved]) -> Iterator[tuple[str, str, str]]:
    """(id, was, is) of every fact that is new, gone, or shown, said or called otherwise.

    One whose interval alone is another is the same number, and not among them.
    """
    for fact in facts:
        was, now = (_side(said, fact.what) for said in (fact.old, fact.new))
        if was != now and not same_number(fact):
            yield fact.id, was, now


def same_number(fact: FactMoved) -> bool:
    """Whether only its interval is another, and with that perhaps the digits that are said."""
    return "interval" in fact.what and not set(fact.what) - {"interval", "spoken"}


def intervals_said(facts: Iterable[FactMoved]) -> list[str]:
    """Sentences on numbers that are as they were, and their intervals are not."""
    groups: dict[str, list[FactMoved]] = {}
    for fact in filter(same_number, facts):
        groups.setdefault(_what_of_it(fact), []).append(fact)
    return [_intervals(what, alike) for what, alike in groups.items()]


def _what_of_it(fact: FactMoved) -> str:
    """How the interval of a number differs that is the same."""
    then, now = (said.level if said else None for said in (fact.old, fact.new))
    if then is None or now is None:
        return "with an interval that it had not" if now else "without the interval that it had"
    if level_shown(then) == level_shown(now):
        return "with another interval at the same confidence"
    if now < then:
        return "with an interval at a lower confidence"
    return "with a wider interval, which allows for how many numbers are tested together"


def _intervals(what: str, alike: list[FactMoved]) -> str:
    number = numbers.counted(len(alike), "number is as it was,", "numbers are as they were, each")
    said = [
        f"{fact.id} “{fact.new.spoken}”, before “{fact.old.spoken}”"
        for fact in alike
        if "spoken" in fact.what and fact.old and fact.new
    ]
    more = f" and {len(said) - MOST} more" if len(said) > MOST else ""
    told = f" With it is said: {'; '.join(said[:MOST])}{more}." if said else ""
    return f"{number} {what}.{told}"


def _side(said: Said | None, what: list[Moved]) -> str:
    """A number with what else of it moved: '−7.4%, changed'."""
    if said is None:
        return "–"
    parts = [said.display]
    parts += [f"“{said.spoken}”"] if "spoken" in what and "display" not in what else []
    parts += [said.verdict or "no verdict"] if "verdict" in what else []
    if "interval" in what and not {"display", "spoken", "verdict"} & set(what):
        parts.append(interval_said(said))
    return ", ".join(parts)


def interval_said(said: Said) -> str:
    """'95% interval −10.0 to −5.0'."""
    if said.interval is None or said.level is None:
        return "no interval"
    return f"{interval_heading(said.level)} {said.interval}"
