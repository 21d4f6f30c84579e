"""A date that is searched for among neighbours that are alike: how many are false, what is seen.

Simulations have a Monte Carlo error of about two and a half points, seeds fixed; tests/calibration
has more.
"""

from __future__ import annotations

import numpy as np
import pytest

from pipeline.significance.methods.neighbours import DRAWS, RHOS, nearest
from pipeline.significance.methods.structural_break import Series, turning_point


def series(rng: np.random.Generator, count: int, rho: float, size: float = 0.0) -> Series:
    """Counts on a drift whose shocks of 3 % are alike by rho, with a step of so many of them."""
    shocks = rng.standard_normal(count)
    for at in range(1, count):
        shocks[at] = rho * shocks[at - 1] + np.sqrt(1 - rho**2) * shocks[at]
    against = rng.integers(8_000, 12_000, count).astype(float)
    stepped = 0.03 * (shocks + size * (np.arange(count) >= 0.55 * count))
    return Series(np.round(1e3 * against * np.exp(0.01 * np.arange(count) + stepped)), against)


def dated(count: int, rho: float, size: float = 0.0, sims: int = 80) -> float:
    """How many series of a hundred have a date."""
    rng = np.random.default_rng([count, int(10 * rho), int(size)])
    found = [turning_point(series(rng, count, rho, size)).p < 0.05 for _ in range(sims)]
    return 100 * float(np.mean(found))


@pytest.mark.slow
@pytest.mark.parametrize("count", [14, 28])
@pytest.mark.parametrize("rho", [0.0, 0.5, 0.7])
def test_few_dates_are_found_where_there_is_none(count: int, rho: float):
    """With independent noise 24 and 40 in a hundred would be at .5, 32 and 64 at .7."""
    assert dated(count, rho) < 11


@pytest.mark.slow
def test_a_large_step_is_dated_all_the_same():
    """Of six standard deviations: its own likeness is not taken for that of the noise."""
    assert dated(28, 0.0, 6, 40) > 93
    assert dated(28, 0.5, 6, 40) > 80


def test_simulated_series_are_as_alike_as_they_are_asked_to_be():
    """And look so on average; each has a unit of noise for every point that the model leaves."""
    one = series(np.random.default_rng(1), 40, 0.0).neighbours
    for rho in (0.0, 0.38, 0.76):
        noise = one.noise(rho)
        assert len(noise.rho) == DRAWS and RHOS[nearest(rho)] == pytest.approx(rho)
        assert noise.whole.mean() == pytest.approx(one.df + 1, rel=0.03)
        assert np.median(noise.rho) == pytest.approx(rho, abs=0.06)


def test_noise_is_the_same_whatever_was_asked_before():
    """What is drawn once for all series of so many points is changed by none of them."""
    one = series(np.random.default_rng(5), 24, 0.0).neighbours
    first = one.noise(0.38)
    other = series(np.random.default_rng(6), 24, 0.5).neighbours.noise(0.76)
    again = series(np.random.default_rng(5), 24, 0.0).neighbours.noise(0.38)
    assert np.array_equal(first.along, again.along) and np.array_equal(first.rho, again.rho)
    assert not np.array_equal(first.along, other.along)


def test_what_is_usual_grows_with_likeness():
    one = series(np.random.default_rng(2), 28, 0.0).neighbours
    usual = one.usual(np.array([0.0, 0.2, 0.4, 0.6, 0.8]))
    assert np.all(np.diff(usual) > 0.5) and usual[-1] > 3 * usual[0]


def test_points_that_are_far_apart_are_not_alike():
    """Every other quarter missing: two of them are alike by the square, as they are drawn."""
    rng = np.random.default_rng(3)
    whole, against = rng.integers(700, 900, 30) * 1e3, np.full(30, 1e6)
    kept = np.arange(0, 30, 2)
    sparse = Series(whole[kept], against[kept], kept.astype(float), order=kept)
    dense = Series(whole[kept], against[kept])
    assert sparse.alike(sparse.plain) == 0  # no two points are neighbours
    e = [one.neighbours.noise(0.76).whole.std() for one in (sparse, dense)]
    assert e[0] < e[1]


def test_a_series_that_swings_allows_for_it_and_says_so():
    """The same step is sure among points that are not alike, and less so among such as are."""
    swings = np.sin(np.arange(28) / 3)
    ticks = swings[np.random.default_rng(1).permutation(28)]
    found = []
    for wobble in (ticks, swings):
        logs = 0.03 * wobble + 0.08 * (np.arange(28) >= 15)
        found.append(turning_point(Series(np.round(1e6 * np.exp(logs)), np.full(28, 1e6))))
    alone, alike = found
    assert alone.rho < 0.5 < 0.9 < alike.rho  # some of it is the step itself
    assert alone.p < 0.01 and alike.p > 0.2
    assert alike.limit > alone.limit >= 1
