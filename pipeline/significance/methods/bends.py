"""Would the step still be there if the trend were not a straight line?

Beside the line with its step (`drift.py`) stand a line that takes another slope at the event, and a
curve. A step that is there beside each of them does not hang on the line. With so few periods they
cost power (own simulations, tests/test_bends.py): a step that is lost beside one is not disproved.

The breakdown figure asks the other way round how far the trend would have to bend. A trend whose
slope changes by no more than so much a year from each year to the next can shift the step only so
far, and the worst such trend is known exactly: a step's estimate is a weighted sum of the log
rates, and the weighted sum of a bend at each point says what a bend there does (Rambachan & Roth
2023, Review of Economic Studies 90: their smoothness restriction, and its breakdown value; the
estimate here stays that of the line).
"""

from __future__ import annotations

from typing import Literal, NamedTuple

import numpy as np

from pipeline.significance.methods.autocorrelation import Places, Serial, allowed_for
from pipeline.significance.methods.drift import STEP, Seasons
from pipeline.significance.methods.drift import design as straight
from pipeline.significance.methods.ratio import Bools, Estimate, Floats
from pipeline.significance.methods.weighted import Fit, fit

Shape = Literal["line", "slope change", "quadratic"]
SHAPES: tuple[Shape, ...] = ("line", "slope change", "quadratic")
BEND = STEP + 1  # the bend's place in a design that has one


class Beside(NamedTuple):
    """The step beside one shape of trend, and the trend's bend: a value a cell, log scale.

    `bend` is by how much the slope a year is another after the event ("slope change"), or by how
    much it changes a year ("quadratic"); a line has none. Both with neighbours allowed for.
    """

    step: Serial
    bend: Serial | None


class Breakdown(NamedTuple):
    """How far the trend must bend, in log units a year per year (expm1 makes it a fraction).

    `vanish` takes the step itself to nought, `untold` takes none into its interval: nought where it
    is in there already. `steady` is the same of a trend that bends by as much all along, for the
    step itself, with its sign: a bend upward is above nought. Where the event stands midway
    a steady bend hardly moves the step, and `steady` is large without end: it is no reassurance.
    """

    vanish: Floats
    untold: Floats
    steady: Floats


def design(time: Floats, after: Bools, shape: Shape, at: float) -> Floats:
    """Intercept, time from its middle, step, and the shape's bend: (points, terms).

    `at` is the event's time, where a line of another slope starts: its step is the one there.
    """
    line = straight(time, after)
    if shape == "slope change":
        return np.column_stack([line, np.where(after, time - at, 0.0)])
    if shape == "quadratic":
        return np.column_stack([line, (time - time.mean()) ** 2 / 2])
    return line


def beside(
    seasons: Seasons, after: Bools, shape: Shape, at: float, places: Places | None = None
) -> Beside:
    """The step beside a shape of trend, its error as of neighbours that are alike.

    `places` numbers the periods, where some are left out. Raises Indistinct where the points can't
    tell the shape: two at least on each side for a slope change, and more points than terms.
    """
    found = fit(seasons.log, seasons.weight, design(seasons.time, after, shape, at))
    bend = None if shape == "line" else allowed_for(found, BEND, places)
    return Beside(allowed_for(found, STEP, places), bend)


def survives(line: Estimate, other: Estimate, alpha: float = 0.05) -> Bools:
    """Whether a step is told beside both trends, on the same side of none."""
    with np.errstate(invalid="ignore"):
        told = (line.p_value() < alpha) & (other.p_value() < alpha)
        same: Bools = told & (line.value * other.value > 0)
    return same


def breakdown(
    seasons: Seasons, after: Bools, step: Estimate, confidence: float = 0.95
) -> Breakdown:
    """How far the trend must bend for the step beside the line to vanish.

    `step` is that step with the error to be used, as `beside` gives it. The slope may change at
    every point but the first and the last, by the figure times the years that the point stands for
    (from midway to the one before to midway to the one after), up or down at each: whatever shifts
    the step most.
    """
    time = seasons.time
    found = fit(seasons.log, seasons.weight, straight(time, after))
    hinges = np.maximum(time[:, None] - time[None, 1:-1], 0.0)
    years = (time[2:] - time[:-2]) / 2
    most = (np.abs(_moved(found, hinges)) * years).sum(1)
    steadily = _moved(found, (time[:, None] - time.mean()) ** 2 / 2)[:, 0]
    low, high = step.interval(confidence)
    clear = np.maximum(np.maximum(low, -high), 0.0)
    with np.errstate(divide="ignore"):
        most, steadily = found.spread(most), found.spread(steadily)
        return Breakdown(np.abs(step.value) / most, clear / most, step.value / steadily)


def _moved(found: Fit, trends: Floats) -> Floats:
    """What each of the trends (points, trends) adds to the step: (cells, trends)."""
    own = found.solver[:, STEP] * found.root.T
    moved: Floats = np.einsum("cn,nt->ct", own, trends)
    return moved
