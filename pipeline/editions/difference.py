"""Two sides into what differs: facts, lines, charts, and the causes that are on record."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.editions.alike import alike
from pipeline.editions.sides import DRAWN, Side

View = dict[str, Any]
# What two builds say of one number: as shown, as said, what it did.
SAYS = ("display", "spoken", "verdict")
KEPT = ("value", "unit", *SAYS)
WHAT = {".csv": "numbers", ".svg": "drawing"}
# Settings that only say what a topic is called or where its file is change nothing that is said.
PASSED_OVER = ("file", "archive")


def compared(old: Side, new: Side) -> View:
    """Plain data: what is new, gone or another thing, from `old` to `new`."""
    facts = list(facts_moved(old.facts, new.facts))
    lines = list(_lines(old, new))
    charts = list(_charts(old, new))
    return {
        "old": old.name,
        "new": new.name,
        "facts": facts,
        "lines": lines,
        "charts": charts,
        "causes": _causes(old, new),
        "same": not (facts or lines or charts),
    }


def facts_moved(before: list[View], after: list[View]) -> Iterator[View]:
    """Facts that are new, gone, or said otherwise, or whose value moved beyond the last digits."""
    earlier = {fact["id"]: fact for fact in before}
    later = {fact["id"]: fact for fact in after}
    for name in [*later, *(gone for gone in earlier if gone not in later)]:
        old, new = earlier.get(name), later.get(name)
        what = _what_moved(old, new)
        if what:
            headline = any(side and side["headline"] for side in (old, new))
            sides = {"old": _kept(old), "new": _kept(new)}
            yield {"id": name, "headline": headline, "what": what, **sides}


def _what_moved(old: View | None, new: View | None) -> list[str]:
    if old is None or new is None:
        return ["new" if old is None else "gone"]
    said = [key for key in SAYS if key in old and old[key] != new[key]]
    value = ["value"] if "value" in old and not alike(old["value"], new["value"]) else []
    return value + said


def _kept(fact: View | None) -> View | None:
    return {key: fact.get(key) for key in KEPT} if fact else None


def _lines(old: Side, new: Side) -> Iterator[View]:
    """Lines of each beat that only one side says."""
    for beat in dict.fromkeys([*new.lines, *old.lines]):
        was, now = old.lines.get(beat, []), new.lines.get(beat, [])
        gone = [line for line in was if line not in now]
        more = [line for line in now if line not in was]
        if gone or more:
            yield {"beat": beat, "gone": gone, "new": more}


def _charts(old: Side, new: Side) -> Iterator[View]:
    for name in dict.fromkeys([*new.charts, *old.charts]):
        was, now = old.charts.get(name), new.charts.get(name)
        if was is None or now is None:
            yield {"chart": name, "what": ["new" if was is None else "gone"]}
            continue
        what = [WHAT[ending] for ending in DRAWN if was[ending] != now[ending]]
        if what:
            yield {"chart": name, "what": what}


def _causes(old: Side, new: Side) -> View:
    """What differs of what both were made of; any of it may be behind what moved."""
    return {
        "data": [old.fingerprint, new.fingerprint] if old.fingerprint != new.fingerprint else None,
        "corrections": {
            "new": [fix for fix in new.corrections if fix not in old.corrections],
            "withdrawn": [fix for fix in old.corrections if fix not in new.corrections],
        },
        "settings": list(settings_moved(old.settings, new.settings)),
        "code": old.code != new.code,
    }


def settings_moved(old: Any, new: Any) -> Iterator[View]:
    """Settings that differ, each once, though several stages see it: where, was, is."""
    seen = set()
    for where, was, now in _walked(old, new, ()):
        short = where[1:]  # without the stage that saw it
        key = (short, repr(was), repr(now))
        if key not in seen and not set(short) & set(PASSED_OVER):
            seen.add(key)
            yield {"where": ".".join(map(str, short)), "was": was, "is": now}


def _walked(old: Any, new: Any, where: tuple) -> Iterator[tuple[tuple, Any, Any]]:
    if isinstance(old, dict) and isinstance(new, dict):
        for key in dict.fromkeys([*old, *new]):
            yield from _walked(old.get(key), new.get(key), (*where, key))
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for at, pair in enumerate(zip(old, new, strict=True)):
            yield from _walked(*pair, (*where, at))
    elif old != new:
        yield where, old, new
