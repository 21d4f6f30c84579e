"""A change's error by periods where neighbours are alike: by matrices, and how often it errs."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import t as student

from pipeline.significance.level import by_period
from pipeline.significance.methods import clusters
from pipeline.significance.methods.alike_periods import factor
from pipeline.significance.methods.ratio import Sums
from tests.alike_by_hand import factor_of
from tests.test_level import paired

SIMS = 4000


def alike(rng: np.random.Generator, count: int, rho: float, sd: float) -> np.ndarray:
    """(periods, SIMS) of an autoregressive series of that standard deviation."""
    made = [rng.normal(0, 1, SIMS)]
    for _ in range(count - 1):
        made.append(rho * made[-1] + np.sqrt(1 - rho**2) * rng.normal(0, 1, SIMS))
    return sd * np.array(made)


def deleted(levels: np.ndarray) -> clusters.Deleted:
    """Periods of one size whose logs are these."""
    x = np.full(levels.shape, 1e6)
    return clusters.deleted(Sums(x * np.exp(levels), x, np.ones(x.shape, bool)))


def test_it_is_what_matrices_make_of_the_same_residuals():
    rng = np.random.default_rng(1)
    for before, after in ((5, 5), (8, 3), (4, 7)):
        levels = rng.normal(0, 0.02, (before + after, 30)).cumsum(0)
        one, other = deleted(levels[:before]), deleted(levels[before:])
        by_hand = [
            factor_of(one.moved[:, cell], other.moved[:, cell]) for cell in range(levels.shape[1])
        ]
        assert factor(one, other) == pytest.approx(np.array(by_hand), rel=1e-3)
        assert max(by_hand) > 1 and min(by_hand) >= 1


def test_a_longer_series_tells_it_where_it_can():
    levels = np.random.default_rng(6).normal(0, 0.02, (10, 3)).cumsum(0)
    one, other = deleted(levels[:5]), deleted(levels[5:])
    known = factor(one, other, np.array([0.0, 0.6, np.nan]))
    own = [factor_of(one.moved[:, at], other.moved[:, at]) for at in range(3)]
    assert known[0] == pytest.approx(1) and known[2] == pytest.approx(own[2], rel=1e-3)
    assert known[1] == pytest.approx(factor_of(one.moved[:, 1], other.moved[:, 1], 0.6))


def test_a_cell_without_some_of_the_periods_is_told_by_the_others():
    levels = np.random.default_rng(2).normal(0, 0.02, (10, 2)).cumsum(0)
    x = np.full(levels.shape, 1e6)
    here = np.ones(x.shape, bool)
    x[3, 1], here[3, 1] = 0.0, False
    sums = Sums(x * np.exp(levels), x, here)
    one, other = (
        clusters.deleted(Sums(sums.y[rows], sums.x[rows], sums.here[rows]))
        for rows in (slice(0, 5), slice(5, 10))
    )
    kept = factor_of(one.moved[[0, 1, 2, 4], 1], other.moved[:, 1])
    assert factor(one, other) == pytest.approx(
        [factor_of(one.moved[:, 0], other.moved[:, 0]), kept]
    )


def test_with_one_period_in_a_window_nothing_can_be_told():
    levels = np.random.default_rng(3).normal(0, 0.02, (6, 4)).cumsum(0)
    assert (factor(deleted(levels[:1]), deleted(levels[1:])) == 1).all()


@pytest.mark.parametrize(("rho", "most", "plain"), [(0.0, 5.5, 4), (0.3, 7, 8), (0.5, 11, 12)])
def test_alike_seasons_are_seldom_a_change(rho: float, most: float, plain: float):
    """Five seasons a side whose levels differ by 3 %, and matches beside: without it `plain`."""
    rng = np.random.default_rng(4)
    levels = alike(rng, 10, rho, 0.03) + rng.normal(0, 0.10 / np.sqrt(40), (10, SIMS))
    one, other = deleted(levels[:5]), deleted(levels[5:])
    found = clusters.pooled(one, other)
    t = abs(found.value) / found.se
    edge = student.ppf(0.975, 8)
    assert 100 * np.mean(t > edge) > plain
    assert 100 * np.mean(t / np.sqrt(factor(one, other)) > edge) < most


def test_periods_are_taken_in_the_order_of_time():
    """Whatever they are called: the same numbers the other way round are alike in the same way."""
    rng = np.random.default_rng(5)
    x = np.full((60, 1), 100.0)
    y = x * np.exp(np.repeat(rng.normal(0, 0.05, 10).cumsum(), 6))[:, None]
    sums = Sums(y, x, np.ones(x.shape, bool))
    a, b = (Sums(*(part[rows] for part in sums)) for rows in (slice(0, 30), slice(30, 60)))
    names = np.array([f"{at:02}" for at in range(10)]).repeat(6)
    pair = paired(a, names[:30], b, names[30:])
    mixed = np.array(["04", "00", "03", "01", "02", "09", "06", "08", "05", "07"]).repeat(6)
    other = paired(a, mixed[:30], b, mixed[30:])
    errors = [by_period(one, "season").errors.logs.se[0] for one in (pair, other)]
    assert errors[0] > 1.1 * errors[1]
