"""The step at a date that was searched for, with its ends at any confidence."""

from __future__ import annotations

import math
from functools import lru_cache

from pipeline.contracts.finding import Turn
from pipeline.contracts.over_time import TurningDate
from pipeline.contracts.parts import Span
from pipeline.significance.methods.step_interval import step_interval
from pipeline.significance.methods.structural_break import turning_point
from pipeline.significance.points import Counts, Times, series_of


def at_level(finding: Turn, level: float) -> tuple[Span, Span]:
    """(the step in the measure's units, the step as a fraction) with its ends at this confidence.

    From the finding alone, which keeps its series: the same draws give the same ends. They leave
    none out if and only if the finding's p is below one minus the level.
    """
    if finding.turn is None or finding.a.value is None:
        raise ValueError(f"{finding.id} has no date")
    return step_at(finding.turn, finding.a.value, level)


def step_at(turn: TurningDate, before: float, level: float) -> tuple[Span, Span]:
    """(in units, as a fraction) of the level `before` the date."""
    value, low, high = (
        math.expm1(end) for end in _ends(tuple(turn.counts), tuple(turn.times), level)
    )
    return (
        Span(value=before * value, low=before * low, high=before * high),
        Span(value=value, low=low, high=high),
    )


@lru_cache(maxsize=64)
def _ends(counts: Counts, times: Times, level: float) -> tuple[float, float, float]:
    """The step with its ends on the log scale; once for each series and level, since it is slow."""
    series = series_of(counts, times)
    found = turning_point(series)
    return found.step, *step_interval(series, found, level)
