"""A step at the event beside the drift, as it is told of each cell; and beside trends that bend."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, get_args

import numpy as np

from pipeline.contracts.codes import Shape
from pipeline.contracts.over_time import Bend, Slope, StepTest
from pipeline.contracts.parts import CONFIDENCE
from pipeline.significance.methods.bends import beside, breakdown, survives
from pipeline.significance.methods.drift import Seasons, fitted, rank_among_dates, step_and_drift
from pipeline.significance.methods.ratio import Estimate
from pipeline.significance.printed import of_log

if TYPE_CHECKING:
    from pipeline.significance.second_verdict import Asked

SHAPES: tuple[Shape, ...] = get_args(Shape)


def step_tests(seasons: Seasons, asked: Asked, per: float | None = None) -> list[StepTest | None]:
    """One a cell; none of a cell that has an empty period.

    `seasons` are of the periods asked, their times in years from the first of them. With `per`, the
    measure's scale, the line with its step is given at every period, to be drawn.
    """
    serial, drifting = step_and_drift(seasons, asked.after, asked.places)
    step, slope = serial.estimate, drifting.estimate
    with np.errstate(all="ignore"):
        p = step.p_value()
        vanish = np.expm1(breakdown(seasons, asked.after, step).vanish)
    rank, dates = rank_among_dates(seasons, asked.after, asked.places)
    bends = _bends(seasons, asked, step)
    found: list[StepTest | None] = []
    for cell in range(seasons.log.shape[1]):
        if not _told(step, slope, cell) or not math.isfinite(p[cell]):
            found.append(None)
            continue
        test = StepTest(
            slope=slope_of(slope, cell),
            expected=slope_of(slope, cell, asked.apart),
            step=of_log(
                math.expm1(step.value[cell]), float(step.se[cell]), step.df[cell], CONFIDENCE
            ),
            p=float(p[cell]),
            se=float(step.se[cell]),
            df=float(step.df[cell]),
            rank=int(rank[cell]),
            dates=dates,
            fit=_line(seasons, asked, cell, per) if per else None,
            rho=float(serial.rho[cell]),
            factor=float(serial.factor[cell]),
            bends=bends[cell],
            breakdown=float(vanish[cell]) if math.isfinite(vanish[cell]) else None,
        )
        found.append(test)
    return found


def _told(step: Estimate, slope: Estimate, cell: int) -> bool:
    """Whether there is a number for all that is told of a cell."""
    return all(
        math.isfinite(part[cell]) for one in (step, slope) for part in (one.value, one.se, one.df)
    )


def _bends(seasons: Seasons, asked: Asked, step: Estimate) -> list[list[Bend]]:
    """Of each cell, the step beside every other shape; none of a cell without a number."""
    at = asked.event - asked.middle[0]
    found: list[list[Bend]] = [[] for _ in step.value]
    for shape in SHAPES:
        other = beside(seasons, asked.after, shape, at, asked.places).step.estimate
        with np.errstate(all="ignore"):
            p, kept = other.p_value(), survives(step, other, 1 - CONFIDENCE)
        for cell, bends in enumerate(found):
            if math.isfinite(p[cell]):
                bends.append(Bend(shape=shape, survives=bool(kept[cell]), p=float(p[cell])))
    return found


def slope_of(slope: Estimate, cell: int, years: float = 1.0) -> Slope:
    """What the drift alone makes in so many years, with its 95 % interval."""
    value, se = slope.value[cell] * years, abs(float(slope.se[cell] * years))
    span = of_log(math.expm1(value), se, slope.df[cell], CONFIDENCE)
    return Slope(value=span.value, low=span.low, high=span.high)


def _line(seasons: Seasons, asked: Asked, cell: int, per: float) -> list[tuple[str, float]]:
    one = Seasons(seasons.log[:, [cell]], seasons.weight[:, [cell]], seasons.time)
    values = np.exp(fitted(one, asked.after)[:, 0]) * per
    return [(label, float(value)) for label, value in zip(asked.labels, values, strict=True)]
