"""All the ways in which a number may have been said, each with what has to be said instead."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pipeline.contracts.errata import Wording
from pipeline.contracts.finding import Gap, Player, control_of, drift_of
from pipeline.contracts.parts import Span
from pipeline.errata.hearing import heard
from pipeline.errata.number import Number, OfBeat, OfFinding
from pipeline.errata.told_of import BEYOND_CONTROL
from pipeline.said.naming import SHARE, part_of
from pipeline.text import slug
from pipeline.wording import numbers, phrases
from pipeline.wording.fact_forms import sign_of, way_of
from pipeline.wording.scales import Scaled, beyond, change_of, scaled
from pipeline.wording.values import unit_said, values_said

Kinds = Iterator[tuple[str, str]]
_NEARLY = re.compile(r"^(?:about|nearly|just over) ")


def wordings(old: Number, new: Number | None) -> list[Wording]:
    """Those of a number as it was, with those of the same kind as it is."""
    was, now = by_kind(old), by_kind(new) if new else {}
    turn = _turn(old, new)
    found: dict[tuple[str, ...], Wording] = {}
    for kind, words in was.items():
        instead = now.get("said" if kind == "core" else kind) or now.get("said")
        if turn is not None and instead:
            instead = f"{instead} {turn}".rstrip()
        wording = Wording(
            old=words,
            new=instead,
            right=turn is None and kind in now and now[kind] == words,
            bare=kind.startswith("number"),
            of=part_of(old),
        )
        found.setdefault(tuple(word.text for word in heard(words)), wording)
    return list(found.values())


def instead_of(old: Number, new: Number | None) -> str | None:
    """What has to be said instead, however it was said; with its direction where that turned."""
    if new is None:
        return None
    turn, said = _turn(old, new), by_kind(new).get("said")
    return f"{said} {turn}".rstrip() if said and turn is not None else said


def _turn(old: Number, new: Number | None) -> str | None:
    """The direction of a number that goes the other way now."""
    return way_of(new.fact) if new and _sign(old) != _sign(new) else None


def _sign(number: Number) -> int:
    """Groups are lower now where they were down in an older edition: that is no turn."""
    return sign_of(number.fact)


def by_kind(number: Number) -> dict[str, str]:
    """Wordings by their kind; kinds that begin with 'number' have no unit."""
    found = {}
    if isinstance(number, OfFinding) and not number.finding.refused:
        found = dict(_of_finding(number))
    return found | dict(_of_fact(number))


def _of_fact(number: Number) -> Kinds:
    """As the fact itself has it: spoken and shown, with and without 'about'; no direction."""
    fact = number.fact
    way = way_of(fact)
    said = fact.spoken.removesuffix(f" {way}") if way else fact.spoken
    shown = fact.display.lstrip(f"{numbers.MINUS}+")
    unit = fact.unit.partition(",")[0]
    if said == numbers.said(fact.value or 0, 0):  # a count: its noun is in the unit alone
        yield "number said", said
        said = f"{said} {unit}"
    yield "said", said
    yield "core", _NEARLY.sub("", said)
    if not re.fullmatch(r"[\d.,]+", shown):
        yield "shown", shown
        return
    yield "number shown", shown
    yield "shown", f"{shown} {unit}"
    if isinstance(number, OfBeat) and fact.unit == number.measure.unit:
        yield "shown shortly", f"{shown} {unit_said(number.measure)}"
    if unit.startswith("per cent "):
        yield "shown in per cent", f"{shown} per cent"


def _of_finding(number: OfFinding) -> Kinds:
    """As the lines round it: by what the interval can bear, and the interval itself."""
    finding, part = number.finding, number.part
    sides = [slug(side) for side in finding.sides]
    if part in sides and not isinstance(finding, Gap):
        yield from _of_side(number, sides.index(part))
    elif part == "difference":
        yield from _of_difference(number)
    if part == ("difference" if finding.kind == "share" else "change"):
        yield from _of_change(number)
    elif part == BEYOND_CONTROL and (control := control_of(finding)):
        yield from _intervals(beyond(control, finding.kind))
    elif part == "step" and (drift := drift_of(finding)) and drift.test:
        yield from _intervals(_in_per_cent(drift.test.step))
    elif part == "luck-allowed-for" and isinstance(finding, Player) and finding.shrunk:
        drawn = finding.shrunk
        span = Span(value=drawn.change, low=drawn.low, high=drawn.high)
        yield from _intervals(_in_per_cent(span))
    elif part.startswith(SHARE) and number.fact.value is not None:
        yield "number rounded", numbers.said(number.fact.value, 0)
        yield "fraction", phrases.share_said(number.fact.value / 100)


def _of_side(number: OfFinding, at: int) -> Kinds:
    """A side's value to what its interval can bear."""
    value, unit = values_said(number.finding, number.measure)[at], unit_said(number.measure)
    yield "number rounded", value
    yield "rounded", numbers.with_unit(value, unit)
    if unit.startswith("per cent "):
        yield "rounded in per cent", f"{value} per cent"


def _of_difference(number: OfFinding) -> Kinds:
    """A difference to what its interval can bear: of a share in points, else in its unit.

    Points are said to a half; older versions said them in wholes.
    """
    finding, measure = number.finding, number.measure
    units = finding.told.difference
    if finding.kind == "share":
        points = change_of(finding)
        said = {"size": points.said(), "size in wholes": points.said(halves=False)}
    else:
        said = {"size": phrases.size(units.value, units.half, measure.decimals, measure.unit)}
    for kind, words in said.items():
        yield kind, words
        yield f"{kind} alone", _NEARLY.sub("", words)


def _of_change(number: OfFinding) -> Kinds:
    """The change as an interval, and as a multiple where it is one."""
    yield from _intervals(change_of(number.finding))
    relative = number.finding.told.relative
    times = phrases.times_said(1 + relative.value) if relative and relative.value else None
    if times:
        yield "times", f"{times} what it was"
        yield "times alone", f"{_NEARLY.sub('', times)} what it was"


def _intervals(change: Scaled) -> Kinds:
    """As what it could be: with its way, without it where the noun has it, of two groups."""
    yield "interval", change.reach()
    yield "could be", change.could_be()
    yield "could be, its noun a way", change.could_be(None)
    yield "could be, of groups", change.could_be(phrases.APART)


def _in_per_cent(fraction: Span) -> Scaled:
    """A fraction as it is told, whatever its measure is."""
    return scaled(fraction, fraction, "rate")
