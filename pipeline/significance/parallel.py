"""Had a number and its control gone the same way before the event, and is there a step between?

Two windows can't say: a control that drifts another way makes a change beyond itself out of
nothing. So the log of the number over its control is followed period by period, as a gap is: its
slope before the event, and its step at the event beside that drift.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pandas as pd

from pipeline.contracts.codes import ParallelVerdict
from pipeline.contracts.over_time import Parallel, StepTest
from pipeline.contracts.parts import CONFIDENCE
from pipeline.significance.methods.autocorrelation import Serial, allowed_for
from pipeline.significance.methods.drift import Seasons
from pipeline.significance.methods.inference import tost
from pipeline.significance.methods.ratio import Estimate, Floats
from pipeline.significance.methods.weighted import fit
from pipeline.significance.second_verdict import alike_of, gaps_or_rates, too_few
from pipeline.significance.step_tests import slope_of, step_tests

if TYPE_CHECKING:
    from pipeline.config.views import Scale
    from pipeline.significance.second_verdict import Asked

LEAST = 5  # periods before the event, for a slope of them to be told
SLOPE = 1  # its place beside the intercept


class Followed(NamedTuple):
    """What the periods say of a cell beside its control."""

    parallel: Parallel
    step: StepTest | None


def followed(
    own: pd.DataFrame,
    control: pd.DataFrame,
    pairs: dict[str, str],
    asked: Asked,
    scale: Scale,
) -> dict[str, Followed]:
    """By cell id, of each that has a control. Rows are of every period, named in `period`."""
    cells = list(pairs)
    if not asked.labels:
        untold = Parallel(verdict="can't tell", periods=0, per=asked.per)
        return {cell: Followed(untold, None) for cell in cells}
    rows, mine, theirs = _both(own, control, pairs)
    gaps = gaps_or_rates(rows, mine, asked, theirs)
    levels = np.exp(gaps_or_rates(rows, mine, asked, None).log) * scale.per
    tests = [None] * len(cells) if too_few(asked) else step_tests(gaps, asked)
    found = _parallel(gaps, levels, asked, scale)
    return {
        cell: Followed(*each)
        for cell, each in zip(cells, zip(found, tests, strict=True), strict=True)
    }


def alike_beside(
    own: pd.DataFrame, control: pd.DataFrame, pairs: dict[str, str], asked: Asked
) -> Floats:
    """How alike neighbouring periods of each cell's gap to its control are, (cells,)."""
    rows, mine, theirs = _both(own, control, pairs)
    return alike_of(rows, mine, asked, theirs)


def _both(
    own: pd.DataFrame, control: pd.DataFrame, pairs: dict[str, str]
) -> tuple[pd.DataFrame, list[str], list[str]]:
    """The rows of both, and what each cell and its twin are called there."""
    rows = pd.concat(
        [own.assign(cell="own " + own["cell"]), control.assign(cell="twin " + control["cell"])]
    )
    return rows, [f"own {cell}" for cell in pairs], [f"twin {twin}" for twin in pairs.values()]


def _parallel(gaps: Seasons, levels: Floats, asked: Asked, scale: Scale) -> list[Parallel]:
    before = ~asked.after
    count, cells = int(before.sum()), gaps.log.shape[1]
    if count < LEAST:
        return [Parallel(verdict="can't tell", periods=count, per=asked.per)] * cells
    time = gaps.time[before]
    columns = np.column_stack([np.ones(count), time - time.mean()])
    fitted = fit(gaps.log[before], gaps.weight[before], columns)
    serial = allowed_for(fitted, SLOPE, asked.places[before])
    with np.errstate(all="ignore"):
        p = serial.estimate.p_value()
        inside = _inside(serial.estimate, levels[before].mean(0), asked, scale)
    return [
        _told(serial, cell, float(p[cell]), inside[cell], count, asked) for cell in range(cells)
    ]


def _inside(slope: Estimate, level: Floats, asked: Asked, scale: Scale) -> Floats:
    """p that what the slope makes between the windows is inside the margin, on the log scale."""
    size = scale.margin.size / 100 + np.zeros_like(level)
    if scale.margin.unit == "points":
        size = scale.margin.size / level
    each = zip(slope.value * asked.apart, slope.se * abs(asked.apart), slope.df, size, strict=True)
    return np.array([_within(*one) for one in each])


def _within(value: float, se: float, df: float, share: float) -> float:
    one = Estimate(np.array(value), np.array(se), np.array(df))
    return float(tost(one, *_edges(share)))


def _edges(share: float) -> tuple[Floats, Floats]:
    """A margin that is all of the level, or more, has no lower edge."""
    low = math.log1p(-share) if share < 1 else -math.inf
    return np.array(low), np.array(math.log1p(share))


def _told(serial: Serial, cell: int, p: float, inside: float, count: int, asked: Asked) -> Parallel:
    if not math.isfinite(p):
        return Parallel(verdict="can't tell", periods=count, per=asked.per)
    verdict: ParallelVerdict = "can't tell"
    if p < 1 - CONFIDENCE:
        verdict = "not parallel"
    elif inside < 1 - CONFIDENCE:
        verdict = "parallel"
    return Parallel(
        verdict=verdict,
        periods=count,
        per=asked.per,
        slope=slope_of(serial.estimate, cell),
        p=p,
        rho=float(serial.rho[cell]),
        factor=float(serial.factor[cell]),
    )
