"""Beside other trends than a line: does the step stay, and how far must the trend bend?

Simulations have a Monte Carlo error of about half a point at 5 %, seeds fixed.
"""

from __future__ import annotations

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from pipeline.significance.methods.autocorrelation import allowed_for
from pipeline.significance.methods.bends import (
    SHAPES,
    beside,
    breakdown,
    design,
    survives,
)
from pipeline.significance.methods.drift import STEP, Seasons, step_and_drift
from pipeline.significance.methods.ratio import Estimate
from pipeline.significance.methods.weighted import Indistinct, fit

CELLS = 2_000
TIME, AFTER, AT = np.arange(14.0) + 2005, np.arange(14) >= 8, 2012.5
YEARS = TIME[:, None] - 2011


def seasons(rng: np.random.Generator, added: np.ndarray | float = 0.0, cells: int = CELLS):
    """Log rates that rise by 1.2 % a year with shocks of 2 %, of uneven weight."""
    w = rng.uniform(8_000, 12_000, (14, cells))
    return Seasons(rng.normal(0, 0.02, (14, cells)) + 0.012 * YEARS + added, w, TIME)


def called(estimate: Estimate) -> float:
    return float(100 * (estimate.p_value() < 0.05).mean())


STEPPED = 0.05 * AFTER[:, None]
CURVED = 0.008 * YEARS**2 / 2
BENT = 0.03 * np.where(AFTER[:, None], TIME[:, None] - AT, 0)


@pytest.mark.parametrize(
    ("added", "line", "slope", "quadratic"),
    [
        (0.0, (2.5, 6), (2.5, 6), (2.5, 6)),
        (CURVED, (0, 100), (0, 30), (2.5, 6)),  # each shape's own trend is no step beside it
        (BENT, (0, 100), (2.5, 6), (0, 30)),
        (STEPPED, (44, 57), (37, 51), (37, 51)),  # what a step of 5 % is worth beside each
    ],
)
def test_what_is_called_a_step_beside_each_trend(added, line, slope, quadratic):
    found = seasons(np.random.default_rng(1), added)
    for shape, (low, high) in zip(SHAPES, (line, slope, quadratic), strict=True):
        assert low <= called(beside(found, AFTER, shape, AT).step.estimate) < high


def test_a_step_that_must_survive_a_curve_costs_ten_points_of_power():
    found = seasons(np.random.default_rng(2), STEPPED)
    line, _, curve = (beside(found, AFTER, shape, AT).step.estimate for shape in SHAPES)
    both = 100 * survives(line, curve).mean()
    assert 6 < called(line) - both < 14 and both < called(curve)
    none = seasons(np.random.default_rng(3))
    line, slope, curve = (beside(none, AFTER, shape, AT).step.estimate for shape in SHAPES)
    assert 100 * survives(line, curve).mean() < 4.5 > 100 * survives(line, slope).mean()


def test_the_bend_itself_is_found():
    """A slope of three per cent more a year after the event; a curve of .8 % a year per year."""
    bent = beside(seasons(np.random.default_rng(4), BENT), AFTER, "slope change", AT)
    assert bent.bend.estimate.value.mean() == pytest.approx(0.03, abs=0.0005)
    assert bent.step.estimate.value.mean() == pytest.approx(0, abs=0.002)
    curved = beside(seasons(np.random.default_rng(5), CURVED), AFTER, "quadratic", AT)
    assert curved.bend.estimate.value.mean() == pytest.approx(0.008, abs=0.0002)
    low, high = curved.bend.estimate.interval(0.95)
    assert 93.5 < 100 * ((low < 0.008) & (high > 0.008)).mean() < 98
    assert beside(seasons(np.random.default_rng(6)), AFTER, "line", AT).bend is None


def test_every_shape_agrees_with_a_reference_library():
    """statsmodels' weighted least squares on columns written out; the line's is the drift's."""
    found = seasons(np.random.default_rng(7), STEPPED, 2)
    line = beside(found, AFTER, "line", AT).step
    step, _ = step_and_drift(found, AFTER)
    assert line.estimate.value == pytest.approx(step.estimate.value, abs=1e-12)
    assert line.estimate.se / np.sqrt(line.factor) == pytest.approx(step.plain.se, rel=1e-9)
    since = np.where(AFTER, TIME - AT, 0)
    for shape, extra in (("slope change", since), ("quadratic", (TIME - 2011.5) ** 2 / 2)):
        columns = np.column_stack([np.ones(14), TIME - 2011.5, AFTER, extra])
        own = beside(found, AFTER, shape, AT)
        for cell in range(2):
            theirs = sm.WLS(found.log[:, cell], columns, weights=found.weight[:, cell]).fit()
            for term, mine in ((2, own.step), (3, own.bend)):
                assert mine.estimate.value[cell] == pytest.approx(theirs.params[term], abs=1e-11)
                plain = mine.estimate.se[cell] / np.sqrt(mine.factor[cell])
                assert plain == pytest.approx(theirs.bse[term], rel=1e-8)
                assert mine.estimate.df[cell] == theirs.df_resid == 10


def test_the_step_stands_at_the_event():
    """With another slope after it, the step is the gap between the two lines at that moment."""
    exact = Seasons((0.05 * AFTER + BENT[:, 0])[:, None], np.ones((14, 1)), TIME)
    for at, gap in ((AT, 0.05), (AT - 0.5, 0.05 - 0.015), (AT + 0.5, 0.05 + 0.015)):
        assert beside(exact, AFTER, "slope change", at).step.estimate.value[0] == pytest.approx(gap)


def test_neighbours_are_allowed_for_by_their_places():
    found = seasons(np.random.default_rng(8), 0, 30)
    kept = np.arange(14) != 8
    short = Seasons(found.log[kept], found.weight[kept], TIME[kept])
    places = np.arange(14)[kept]
    for shape in SHAPES:
        columns = design(short.time, AFTER[kept], shape, AT)
        own = beside(short, AFTER[kept], shape, AT, places).step
        same = allowed_for(fit(short.log, short.weight, columns), STEP, places)
        assert own.rho == pytest.approx(same.rho) and own.factor == pytest.approx(same.factor)
    blind = beside(short, AFTER[kept], "quadratic", AT).step
    assert np.any(own.rho != blind.rho) and np.any(own.factor != blind.factor)


def test_a_shape_that_the_points_can_t_tell():
    """One season after the event has no slope of its own."""
    found, last = seasons(np.random.default_rng(9), 0, 2), np.arange(14) >= 13
    assert np.all(beside(found, last, "quadratic", 2017.5).step.estimate.se > 0)
    with pytest.raises(Indistinct):
        beside(found, last, "slope change", 2017.5)


def test_survival_asks_for_both_and_for_the_same_side():
    df = np.full(4, 10.0)
    line = Estimate(np.array([0.05, 0.05, 0.05, 0.01]), np.full(4, 0.01), df)
    other = Estimate(np.array([0.04, -0.04, 0.01, 0.05]), np.full(4, 0.01), df)
    assert list(survives(line, other)) == [True, False, False, False]
    assert list(survives(line, other, alpha=0.5)) == [True, False, True, True]
    nothing = Estimate(np.full(4, np.nan), np.full(4, np.nan), df)
    assert not survives(line, nothing).any()


def stepped(log: np.ndarray, weight: np.ndarray | None = None) -> tuple[Seasons, Estimate]:
    found = Seasons(log[:, None], (np.ones(14) if weight is None else weight)[:, None], TIME)
    return found, beside(found, AFTER, "line", AT).step.estimate


def test_the_breakdown_is_the_worst_trend_there_is():
    """The largest shift of the step by a trend that bends by at most one a year: as a linear
    programme finds it, over every path of slopes."""
    rng = np.random.default_rng(10)
    weight = rng.uniform(1, 9, 14)
    found, step = stepped(rng.normal(0, 0.02, 14) + STEPPED[:, 0], weight)
    columns = design(TIME, AFTER, "line", AT) * np.sqrt(weight)[:, None]
    own = np.linalg.pinv(columns)[STEP] * np.sqrt(weight)
    second = np.zeros((12, 14))
    for row in range(12):
        second[row, row : row + 3] = 1, -2, 1
    fixed = np.zeros((2, 14))
    fixed[0, 0] = fixed[1, 1] = 1  # a line added to the trend moves no step
    bounds = np.ones(24)
    solved = linprog(-own, np.vstack([second, -second]), bounds, fixed, [0, 0], (None, None))
    assert breakdown(found, AFTER, step).vanish[0] == pytest.approx(
        abs(step.value[0]) / -solved.fun, rel=1e-7
    )


def test_a_trend_that_bends_so_far_makes_the_whole_step():
    """A series with nothing but the worst trend in it is called a step of that size."""
    found, step = stepped(np.random.default_rng(11).normal(0, 0.02, 14) + STEPPED[:, 0])
    most = breakdown(found, AFTER, step).vanish[0]
    hinges = np.maximum(TIME[:, None] - TIME[None, 1:-1], 0)
    signs = [
        np.sign(step_and_drift(stepped(hinge)[0], AFTER)[0].estimate.value[0]) for hinge in hinges.T
    ]
    worst = most * hinges @ signs
    assert stepped(worst)[1].value[0] == pytest.approx(step.value[0], rel=1e-9)
    assert stepped(found.log[:, 0] - worst)[1].value[0] == pytest.approx(0, abs=1e-12)
    milder = 0.9 * worst
    assert stepped(found.log[:, 0] - milder)[1].value[0] > 0


def test_a_steady_bend():
    """With its sign; where the event stands midway it moves no step, and there is no such bend."""
    rng = np.random.default_rng(12)
    found, step = stepped(rng.normal(0, 0.02, 14) + STEPPED[:, 0])
    steady = breakdown(found, AFTER, step).steady[0]
    curve = steady * (TIME - 2011) ** 2 / 2
    assert stepped(found.log[:, 0] - curve)[1].value[0] == pytest.approx(0, abs=1e-12)
    assert abs(steady) > breakdown(found, AFTER, step).vanish[0]
    turned = Seasons(-found.log, found.weight, TIME)
    other = breakdown(turned, AFTER, beside(turned, AFTER, "line", AT).step.estimate)
    assert other.steady[0] == pytest.approx(-steady)
    midway = np.arange(14) >= 7
    even = breakdown(found, midway, beside(found, midway, "line", 2011.5).step.estimate)
    assert abs(even.steady[0]) > 1e6 > even.vanish[0]


def test_as_far_as_the_interval():
    """None is in the interval already, or comes in before the step itself is gone."""
    found = seasons(np.random.default_rng(13), np.array([0.0, 0.2, -0.2]) * AFTER[:, None], 3)
    step = beside(found, AFTER, "line", AT).step.estimate
    figure = breakdown(found, AFTER, step)
    assert figure.untold[0] == 0 < figure.vanish[0]
    low, high = step.interval(0.95)
    clear = np.array([low[1], -high[2]]) / np.abs(step.value[1:])
    assert figure.untold[1:] / figure.vanish[1:] == pytest.approx(clear)
    assert np.all(breakdown(found, AFTER, step, 0.5).untold[1:] > figure.untold[1:])


def test_the_figure_is_a_year_per_year_whatever_the_periods():
    """Half-years at the same dates have more points, the same unit, and nearly the same figure."""
    halves = np.arange(28) / 2 + 2005
    after = halves >= 2013
    fine = Seasons((0.05 * after)[:, None], np.ones((28, 1)), halves)
    figure = breakdown(fine, after, beside(fine, after, "line", 2012.75).step.estimate)
    found, step = stepped(STEPPED[:, 0])
    assert figure.vanish[0] == pytest.approx(breakdown(found, AFTER, step).vanish[0], rel=0.1)


def test_an_empty_season_leaves_its_cell_without_a_figure():
    found = seasons(np.random.default_rng(14), STEPPED, 2)
    found.log[2, 0] = -np.inf
    figure = breakdown(found, AFTER, beside(found, AFTER, "line", AT).step.estimate)
    for own in figure:
        assert np.isnan(own[0]) and np.isfinite(own[1])


@given(scale=st.floats(0.1, 10), shift=st.integers(-900, 30), seed=st.integers(0, 99))
@settings(max_examples=30, deadline=None)
def test_scale_and_calendar_change_no_verdict(scale: float, shift: int, seed: int):
    found = seasons(np.random.default_rng(seed), STEPPED, 2)
    other = Seasons(found.log * scale + 3, found.weight * scale, TIME + shift)
    for shape in SHAPES:
        one, two = beside(found, AFTER, shape, AT), beside(other, AFTER, shape, AT + shift)
        assert two.step.estimate.value == pytest.approx(scale * one.step.estimate.value, abs=1e-8)
        assert two.step.estimate.p_value() == pytest.approx(one.step.estimate.p_value(), rel=1e-5)
    steps = [beside(each, AFTER, "line", AT).step.estimate for each in (found, other)]
    figures = [breakdown(*each) for each in ((found, AFTER, steps[0]), (other, AFTER, steps[1]))]
    for one, two in zip(*figures, strict=True):
        assert two == pytest.approx(scale * one, rel=1e-5, abs=1e-9)
