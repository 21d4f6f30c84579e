"""Two sides into what differs: facts, lines, charts, and the causes that are on record."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.contracts.editions import (
    Causes,
    ChartMoved,
    Difference,
    Drawn,
    FactMoved,
    FixesMoved,
    LinesMoved,
    Moved,
    Said,
    SettingMoved,
)
from pipeline.contracts.facts import Fact
from pipeline.contracts.parts import CONFIDENCE
from pipeline.editions.alike import alike
from pipeline.editions.sides import Side
from pipeline.wording.confidence import level_shown

# Settings that only say what a topic is called or where its files are change nothing that is said;
# what it expects is told as the topic has it.
PASSED_OVER = ("file", "archive", "ledger", "expects")
Place = tuple[str | int, ...]


def compared(old: Side, new: Side) -> Difference:
    """What is new, gone or another thing, from `old` to `new`."""
    facts = list(facts_moved(old.facts, new.facts))
    lines = list(_lines(old, new))
    charts = list(_charts(old, new))
    return Difference(
        old=old.name,
        new=new.name,
        facts=facts,
        lines=lines,
        charts=charts,
        causes=causes_of(old, new),
        same=not (facts or lines or charts),
    )


def facts_moved(before: list[Fact], after: list[Fact]) -> Iterator[FactMoved]:
    """Facts that are new, gone, or said otherwise, or whose value moved beyond the last digits."""
    earlier = {fact.id: fact for fact in before}
    later = {fact.id: fact for fact in after}
    for name in [*later, *(gone for gone in earlier if gone not in later)]:
        old, new = earlier.get(name), later.get(name)
        what = _what_moved(old, new)
        if what:
            headline = any(side.headline for side in (old, new) if side)
            yield FactMoved(id=name, headline=headline, what=what, old=said(old), new=said(new))


def _what_moved(old: Fact | None, new: Fact | None) -> list[Moved]:
    if old is None or new is None:
        return ["new" if old is None else "gone"]
    moved: list[tuple[Moved, bool]] = [
        ("value", not alike(old.value, new.value)),
        ("display", old.display != new.display),
        ("spoken", old.spoken != new.spoken),
        ("verdict", old.verdict != new.verdict),
        ("interval", _interval(old) != _interval(new)),
    ]
    return [what for what, differs in moved if differs]


def _interval(fact: Fact) -> tuple[str | None, str | None]:
    """As it is shown, with its confidence; an edition that notes none has all of 95 %."""
    level = level_of(fact)
    return fact.interval, None if level is None else level_shown(level)


def level_of(fact: Fact) -> float | None:
    """The confidence of its interval, where it has one."""
    if fact.interval is None:
        return None
    return CONFIDENCE if fact.level is None else fact.level


def said(fact: Fact | None) -> Said | None:
    """What a brief says of a number; none of one that it has not."""
    if fact is None:
        return None
    return Said(
        value=fact.value,
        unit=fact.unit,
        display=fact.display,
        spoken=fact.spoken,
        verdict=fact.verdict,
        interval=fact.interval,
        level=level_of(fact),
    )


def _lines(old: Side, new: Side) -> Iterator[LinesMoved]:
    """Lines of each beat that only one side says."""
    for beat in dict.fromkeys([*new.lines, *old.lines]):
        was, now = old.lines.get(beat, []), new.lines.get(beat, [])
        gone = [line for line in was if line not in now]
        more = [line for line in now if line not in was]
        if gone or more:
            yield LinesMoved(beat=beat, gone=gone, new=more)


def _charts(old: Side, new: Side) -> Iterator[ChartMoved]:
    for name in dict.fromkeys([*new.charts, *old.charts]):
        was, now = old.charts.get(name), new.charts.get(name)
        what: list[Drawn] = []
        if was is None or now is None:
            what = ["new" if was is None else "gone"]
        else:
            what += ["numbers"] if was.numbers != now.numbers else []
            what += ["drawing"] if was.drawing != now.drawing else []
        if what:
            yield ChartMoved(chart=name, what=what)


def causes_of(old: Side, new: Side) -> Causes:
    """What differs of what both were made of; any of it may be behind what moved."""
    prints = old.fingerprint, new.fingerprint
    return Causes(
        data=prints if prints[0] != prints[1] else None,
        corrections=FixesMoved(
            new=[fix for fix in new.corrections if fix not in old.corrections],
            withdrawn=[fix for fix in old.corrections if fix not in new.corrections],
        ),
        settings=list(settings_moved(old.settings, new.settings)),
        code=old.code != new.code,
        earlier=(old.earlier, new.earlier) if old.earlier != new.earlier else None,
    )


def settings_moved(old: Any, new: Any) -> Iterator[SettingMoved]:
    """Settings that differ, each once, though several stages see it: where, was, is."""
    seen = set()
    for where, was, now in _walked(old, new, ()):
        short = where[1:]  # without the stage that saw it
        short = short[1:] if short[:1] == ("words",) else short  # the topic, seen as a whole
        key = (short, repr(was), repr(now))
        if key not in seen and not set(short) & set(PASSED_OVER):
            seen.add(key)
            yield SettingMoved(where=".".join(map(str, short)), was=was, now=now)


def _walked(old: Any, new: Any, where: Place) -> Iterator[tuple[Place, Any, Any]]:
    if isinstance(old, dict) and isinstance(new, dict):
        for key in dict.fromkeys([*old, *new]):
            was, now = old.get(key), new.get(key)
            # Settings are added from version to version; one that says nothing is as none.
            if (key in old and key in new) or not (_says_nothing(was) and _says_nothing(now)):
                yield from _walked(was, now, (*where, key))
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for at, pair in enumerate(zip(old, new, strict=True)):
            yield from _walked(*pair, (*where, at))
    elif old != new:
        yield where, old, new


def _says_nothing(value: Any) -> bool:
    return value is None or value is False or value in ([], {}, "")
