"""How one fact is made: value, unit, the form shown and the form said."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypedDict

from pipeline.contracts.codes import Verdict
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding
from pipeline.contracts.over_time import Slope, Yardstick
from pipeline.contracts.panel import Panel
from pipeline.contracts.parts import CONFIDENCE, Felt, Span
from pipeline.wording import numbers, phrases
from pipeline.wording.clusters import swings
from pipeline.wording.fact_forms import LEVEL
from pipeline.wording.on_the_field import PER, counted, felt_amount, felt_overs
from pipeline.wording.other_ways import same_in, same_in_said
from pipeline.wording.values import unit_said
from pipeline.wording.yardstick import in_units

if TYPE_CHECKING:
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

PER_CENT = "per cent"


class Origin(TypedDict, total=False):
    """What a fact is of; all facts of one finding share it."""

    finding: str
    beat: str
    measure: str
    definition: str
    query: str
    headline: bool
    verdict: Verdict
    second: str | None


def value_fact(
    identity: str,
    value: float,
    ends: tuple[float, float] | None,
    measure: Measure,
    origin: Origin,
    digits: int | None = None,
) -> Fact:
    """A measure's own value, with its interval where it has one; `digits` are a line's, if fewer.

    Without them a line says it as the table shows it.
    """
    decimals = measure.decimals
    low, high = ends or (None, None)
    return Fact(
        id=identity,
        value=value,
        low=low,
        high=high,
        level=CONFIDENCE if ends else None,
        unit=measure.unit,
        display=numbers.shown(value, decimals),
        spoken=numbers.with_unit(numbers.said(value, decimals), unit_said(measure)),
        interval=" to ".join(numbers.shown(end, decimals) for end in ends) if ends else None,
        digits=decimals if digits is None else digits,
        unit_said=unit_said(measure),
        **origin,
    )


def percent_fact(
    identity: str,
    change: Span,
    origin: Origin,
    of: str = "",
    level: float = CONFIDENCE,
    ways: tuple[str, str] = phrases.TIME,
) -> Fact:
    """A fraction as per cent `of` what is said: a change, a step on top of the drift.

    `ways` are the words for less and for more: of two groups neither came first.
    """
    said = phrases.size(change.value * 100, change.half * 100, 1, "per cent")
    return Fact(
        id=identity,
        value=change.value,
        low=change.low,
        high=change.high,
        level=level,
        unit=f"per cent{of}",
        display=numbers.percent(change.value),
        spoken=f"{said}{of} {_way(change.value, ways)}",
        interval=numbers.between(change.low * 100, change.high * 100, 1),
        scale=100,
        digits=numbers.bearable(change.half * 100, 1),
        unit_said=PER_CENT,
        **origin,
    )


def drift_fact(identity: str, slope: Slope, origin: Origin, of: str) -> Fact:
    """What a season or a year adds, as per cent `of` what is said, with its 95 % interval.

    An old edition's has none.
    """
    if slope.low is not None and slope.high is not None:
        span = Span(value=slope.value, low=slope.low, high=slope.high)
        return percent_fact(identity, span, origin, of)
    said = phrases.size(slope.value * 100, abs(slope.value) * 100, 1, "per cent")
    return Fact(
        id=identity,
        value=slope.value,
        unit=f"per cent{of}",
        display=numbers.percent(slope.value),
        spoken=f"{said}{of} {_way(slope.value)}",
        scale=100,
        digits=numbers.bearable(abs(slope.value) * 100, 1),
        unit_said=PER_CENT,
        **origin,
    )


def yardstick_fact(identity: str, yardstick: Yardstick, origin: Origin, of: str) -> Fact:
    """How far it moves with no event, up or down, as per cent `of` what is said."""
    span = in_units(yardstick, 100)
    return Fact(
        id=identity,
        value=yardstick.sd,
        low=yardstick.low,
        high=yardstick.high,
        level=CONFIDENCE,
        unit=f"per cent{of} {swings(yardstick.unit)}, up or down",
        display=numbers.percent(yardstick.sd, signed=False),
        spoken=f"{phrases.size(span.value, span.half, 1, 'per cent')}{of}",
        interval=numbers.between(span.low, span.high, 1),
        scale=100,
        digits=numbers.bearable(span.half, 1),
        unit_said=PER_CENT,
        **origin,
    )


def difference_fact(
    identity: str,
    difference: Span,
    share: bool,
    measure: Measure,
    origin: Origin,
    level: float = CONFIDENCE,
    arithmetic: str | None = None,
    ways: tuple[str, str] = phrases.TIME,
) -> Fact:
    """A difference in the measure's units, or in percentage points."""
    decimals = max(1, measure.decimals) if share else measure.decimals
    value = difference.value
    shown = numbers.points(value, decimals) if share else numbers.shown(value, decimals, True)
    unit = "percentage points" if share else measure.unit
    said = numbers.with_unit(numbers.said(abs(value), decimals), unit)
    same = numbers.rounded(value, decimals) == 0
    return Fact(
        id=identity,
        value=value,
        low=difference.low,
        high=difference.high,
        level=level,
        unit=unit,
        display=shown,
        spoken=LEVEL if same else f"{said} {_way(value, ways)}",
        interval=numbers.between(difference.low, difference.high, decimals),
        digits=numbers.bearable(difference.half, 1 if share else decimals),
        unit_said=unit,
        arithmetic=arithmetic,
        **origin,
    )


def felt_fact(
    identity: str, finding: Finding, felt: Felt, measure: Measure, form: Format, origin: Origin
) -> Fact:
    """The difference on the field, with the arithmetic that makes it."""
    opening = PER.get(felt.per, "").format(times=numbers.shown(felt_overs(felt, form), 0))
    per = f", {opening[:1].lower()}{opening[1:]}" if opening else ""
    more = "more" if felt.value > 0 else "fewer"
    unit = "points" if finding.kind == "share" else measure.unit
    divided = f" / {felt.divided}" if felt.divided != 1 else ""
    moved_by = numbers.figures(finding.told.difference.value, signed=True)
    return Fact(
        id=identity,
        value=felt.value,
        low=felt.low,
        high=felt.high,
        level=finding.told.level,
        unit=f"{counted(measure)}{per}",
        display=numbers.shown(felt.value, 1, signed=True),
        spoken=f"{felt_amount(felt, measure)} {more}",
        interval=numbers.between(felt.low, felt.high, 1),
        digits=numbers.bearable((felt.high - felt.low) / 2, 1),
        unit_said=counted(measure),
        arithmetic=f"{moved_by} {unit} × {felt.times} {felt.of}{divided}",
        **origin,
    )


def share_fact(identity: str, share: float, origin: Origin) -> Fact:
    """A group's share of the balls."""
    return Fact(
        id=identity,
        value=share * 100,
        unit="per cent of balls",
        display=numbers.percent(share, 1, signed=False),
        spoken=f"{numbers.said(share * 100, 0)} per cent",
        digits=0,
        unit_said=PER_CENT,
        **origin,
    )


def part_fact(identity: str, share: Span, origin: Origin) -> Fact:
    """What part of the whole change a part of it is."""
    low, high = (numbers.shown(end * 100, 0) for end in (share.low, share.high))
    return Fact(
        id=identity,
        value=share.value * 100,
        low=share.low * 100,
        high=share.high * 100,
        level=CONFIDENCE,
        unit="per cent of the change",
        display=numbers.percent(share.value, 0, signed=False),
        spoken=f"{numbers.said(share.value * 100, 0)} per cent of the change",
        interval=f"{low} to {high}",
        digits=0,
        unit_said=PER_CENT,
        **origin,
    )


def kept_fact(identity: str, kept: float, origin: Origin) -> Fact:
    """How much of what separates players is more than luck."""
    return Fact(
        id=identity,
        value=kept * 100,
        unit="per cent of what separates them",
        display=numbers.percent(kept, 0, signed=False),
        spoken=phrases.estimated_share(kept),
        digits=0,
        unit_said=PER_CENT,
        **origin,
    )


def text_fact(identity: str, words: str, interval: str, unit: str, origin: Origin) -> Fact:
    """A fact that is a time, not a number."""
    return Fact(
        id=identity,
        value=None,
        unit=unit,
        display=words,
        spoken=words,
        interval=interval,
        **origin,
    )


def count_fact(identity: str, count: int, unit: str, origin: Origin) -> Fact:
    """How many of something there are."""
    return Fact(
        id=identity,
        value=count,
        unit=unit,
        display=numbers.shown(count, 0),
        spoken=numbers.said(count, 0),
        digits=0,
        unit_said=unit,
        **origin,
    )


def same_in_fact(identity: str, panel: Panel, origin: Origin) -> Fact:
    """In how many of the other ways of asking it comes out the same."""
    defined: Origin = {**origin, "definition": "ways of asking in which it comes out the same"}
    return Fact(
        id=identity,
        value=panel.same,
        unit=f"of {len(panel.choices)} ways of asking",
        display=same_in(panel),
        spoken=same_in_said(panel),
        **defined,
    )


def _way(value: float, ways: tuple[str, str] = phrases.TIME) -> str:
    return ways[value > 0]
