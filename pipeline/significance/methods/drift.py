"""The second question: is there a step on top of the drift that was there anyway?

Season by season: weighted least squares of the log rate on an intercept, time and a step at the
event, weights the denominators, t with seasons - 3 degrees of freedom. So few points can't carry
more: under pure drift this calls a step in about one series of twenty, where a plain before/after
test calls nearly every one, and errors that allow for autocorrelation one in six (own simulations,
tests/test_drift.py; interrupted time series: Lopez Bernal, Cummins & Gasparrini 2017).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pipeline.significance.methods.ratio import Bools, Estimate, Floats

Ints = NDArray[np.int64]
LEAST_BEFORE, LEAST_AFTER = 8, 3  # seasons, for the test to be made at all
LEAST_PLACEBO = 3  # seasons on either side of a date that the real one is ranked among
TERMS = 3  # intercept, drift, step
DRIFT, STEP = 1, 2  # their places


class Seasons(NamedTuple):
    """Log rates of some cells and their weights (seasons, cells), with times in years."""

    log: Floats
    weight: Floats
    time: Floats


def of_rates(y: Floats, x: Floats, time: Floats) -> Seasons:
    """Season totals (seasons, cells) as log rates, the denominators their weights."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return Seasons(np.log(y / x), x, time)


def of_gaps(first: Seasons, second: Seasons) -> Seasons:
    """The second group's log rate over the first's: of their drifts, what is not shared.

    The weight is that of a difference, the harmonic sum of both.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        weight = first.weight * second.weight / (first.weight + second.weight)
        return Seasons(second.log - first.log, np.nan_to_num(weight), first.time)


def step_and_drift(seasons: Seasons, after: Bools) -> tuple[Estimate, Estimate]:
    """(the step at the event, the drift a year), both on the log scale, a value a cell.

    `after` (seasons,) marks the seasons after the event. A cell with an empty season, or with
    nothing counted in one, has no log rate there: its values are not finite.
    """
    usable: Bools = np.all(np.isfinite(seasons.log), axis=0)
    z, weight = seasons.log[:, usable], seasons.weight[:, usable]
    weight = weight / weight.mean(0)
    design = _design(seasons.time, after)
    normal = np.einsum("sp,sc,sq->cpq", design, weight, design)
    moments = np.einsum("sp,sc,sc->cp", design, weight, z)
    inverse = _inverse(normal)
    found = np.einsum("cpq,cq->cp", inverse, moments)
    residual = z - np.einsum("sp,cp->sc", design, found)
    df = len(seasons.time) - TERMS
    variance = (weight * residual**2).sum(0) / df

    def estimate(term: int) -> Estimate:
        value, error = (np.full(len(usable), np.nan) for _ in range(2))
        value[usable] = found[:, term]
        error[usable] = np.sqrt(variance * inverse[:, term, term])
        return Estimate(value, error, np.full(len(usable), float(df)))

    return estimate(STEP), estimate(DRIFT)


def _inverse(normal: Floats) -> Floats:
    """Of matrices of three by three, by their cofactors: in the same order on every processor."""
    one, two, three = (normal[:, row] for row in range(TERMS))
    minors = [np.cross(two, three), np.cross(three, one), np.cross(one, two)]
    with np.errstate(divide="ignore", invalid="ignore"):
        inverse: Floats = np.stack(minors, axis=-1) / (one * minors[0]).sum(-1)[:, None, None]
    return inverse


def _design(time: Floats, after: Bools) -> Floats:
    """Time from its middle: years by the thousand would cost the sums half of their digits."""
    return np.column_stack([np.ones_like(time), time - time.mean(), after.astype(float)])


def fitted(seasons: Seasons, after: Bools) -> Floats:
    """The model's log rate of each season (seasons, cells): the drift with its step."""
    design = _design(seasons.time, after)
    found = []
    for z, weight in zip(seasons.log.T, seasons.weight.T, strict=True):
        root = np.sqrt(weight)
        found.append(design @ np.linalg.lstsq(design * root[:, None], z * root, rcond=None)[0])
    return np.array(found).T


def rank_among_dates(seasons: Seasons, after: Bools) -> tuple[Ints, int]:
    """(rank of the real date's step among all admissible dates, how many dates there are).

    Steps are ranked by size against their error, 1 the largest; a date is admissible with three
    seasons on either side. The real date is one of them or is added to them.
    """
    count = len(seasons.time)
    real = int(np.argmax(after))
    dates = sorted({real, *range(LEAST_PLACEBO, count - LEAST_PLACEBO + 1)})
    sizes = []
    for date in dates:
        step, _ = step_and_drift(seasons, np.arange(count) >= date)
        with np.errstate(divide="ignore", invalid="ignore"):
            sizes.append(np.abs(step.value) / step.se)
    table = np.array(sizes)
    larger = (table > table[dates.index(real)] * (1 + 1e-12)).sum(0)
    return larger + 1, len(dates)
