"""How far a number moves with no event at all, in one line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, yardstick_of
from pipeline.contracts.over_time import Yardstick
from pipeline.contracts.parts import Span
from pipeline.voice.sentence import Told
from pipeline.wording import of_kinds, phrases
from pipeline.wording.clusters import swings
from pipeline.wording.scales import POINTS

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format


def first_told(findings: Sequence[Finding]) -> Finding | None:
    """The first of these with a yardstick that no earlier beat has told."""
    return next((one for one in findings if yardstick_of(one) and not one.again), None)


def yardstick_said(finding: Finding, beat: AnyBeat, measure: Measure, form: Format) -> str | None:
    """'From season to season, you’ll see spin’s economy move by about two per cent anyway.'."""
    yardstick = yardstick_of(finding)
    if yardstick is None:
        return None
    what = of_kinds.measured(finding, beat, measure, form)
    size = size_said(yardstick, finding)
    return Told("yardstick.moves", swings=swings(yardstick.unit), what=what, size=size)


def size_said(yardstick: Yardstick, finding: Finding) -> str:
    """To what its interval can bear: per cent; of a share points, at its value before."""
    times, unit = 100.0, "per cent"
    if finding.kind == "share":
        times, unit = value_before(finding), POINTS
    span = in_units(yardstick, times)
    return phrases.size(span.value, span.half, 1, unit)


def value_before(finding: Finding) -> float:
    """What a share's fraction is of."""
    value = getattr(finding.a, "value", None)
    if value is None:
        raise ValueError(f"{finding.id} has a yardstick and no value before")
    return float(value)


def in_units(yardstick: Yardstick, times: float) -> Span:
    """It and its ends, so many times."""
    sd, low, high = (times * each for each in (yardstick.sd, yardstick.low, yardstick.high))
    return Span(value=sd, low=low, high=high)
