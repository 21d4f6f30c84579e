"""The date of a break and its interval: published examples, reference libraries, plain sums."""

from __future__ import annotations

import numpy as np
import pytest
import ruptures
import statsmodels.api as sm

from pipeline.significance.methods.log_linear import NoFit, deviance, fit
from pipeline.significance.methods.structural_break import (
    FewPoints,
    NoScatter,
    Series,
    turning_point,
)

LIMIT = 7.35  # Eo & Morley 2015, table 1: the likelihood-ratio set's limit at 95 %
NILE = sm.datasets.nile.load_pandas().data["volume"].to_numpy(float)
# Explosions in British coal mines that killed ten or more, by year from 1851 to 1962: Jarrett 1979
# (Biometrika 66), as counted by Carlin, Gelfand & Smith 1992 (Applied Statistics 41).
COAL = [int(count) for count in (
    "4540143406334026335453144155342522342132211113001011003103220111"
    "010100021000110233112111124200014000100000100101"
)]  # fmt: skip
FINE = 1e-4  # of one: so close to none that the logarithm is a straight line


def normal(values: np.ndarray, trend: bool = True) -> Series:
    """A series of normal values as counts so high that they are as good as normal."""
    unit = FINE / values.std()
    return Series(1e12 * np.exp(unit * values), np.ones(len(values)), trend=trend)


def squares(values: np.ndarray, before: int) -> float:
    """Squares left over by a straight line with a step after so many points."""
    count = len(values)
    design = np.column_stack([np.ones(count), np.arange(count), np.arange(count) >= before])
    return float(((values - design @ np.linalg.lstsq(design, values, rcond=None)[0]) ** 2).sum())


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("step", [1.0, 2.5])
def test_the_interval_holds_every_date_within_the_published_limit(seed: int, step: float):
    rng = np.random.default_rng(seed)
    values = 0.1 * np.arange(20) + step * (np.arange(20) >= 12) + rng.normal(0, 0.7, 20)
    series = normal(values)
    found = turning_point(series)
    left = np.array([squares(values, before) for before in series.dates])
    inside = series.dates[20 * np.log(left / left.min()) <= LIMIT * found.limit]
    assert (found.low, found.last, found.high) == (
        inside.min() - 1,
        series.dates[left.argmin()] - 1,
        inside.max() - 1,
    )


def test_the_nile_breaks_after_1898():
    """Flow of the Nile at Aswan, 1871 to 1970: the published break, statistics and interval.

    Zeileis et al. 2003 (strucchange): sup F 75.93, mean F 21.215, exp F 33.759, break 1898. Its
    interval after Bai, 1895-1902, lies about ours.
    """
    found = turning_point(normal(NILE, trend=False))
    assert 1871 + found.last == 1898
    assert 1895 <= 1871 + found.low <= 1898 <= 1871 + found.high <= 1902
    assert found.sup_f == found.f.max() == pytest.approx(75.93, abs=0.06)
    assert found.f.mean() == pytest.approx(21.215, abs=6e-3)
    assert np.log(np.exp(found.f / 2).mean()) == pytest.approx(33.759, abs=0.03)
    assert found.p == pytest.approx(1 / 9973)


def test_the_coal_mines_break_after_1891():
    """Carlin, Gelfand & Smith 1992: the likeliest year is the 41st, from 3.1 a year to 0.9.

    A third of the years have none at all: without them the fall is 51 per cent, and after 1886.
    """
    counts = np.array(COAL, float)
    assert (len(counts), counts.sum(), (counts == 0).sum()) == (112, 191, 33)
    found = turning_point(Series(counts, np.ones(112), trend=False))
    assert 1851 + found.last == 1891
    assert np.exp([found.before, found.before + found.step]) == pytest.approx([127 / 41, 64 / 71])
    assert np.expm1(found.step) == pytest.approx(-0.709, abs=5e-4)
    assert 1851 + found.low <= 1890 < 1851 + found.high and found.p < 0.001
    assert len(found.fitted) == 112


def test_a_fit_agrees_with_a_reference_library():
    """statsmodels' Poisson family with an offset, on counts of which many are nought."""
    rng = np.random.default_rng(12)
    time, against = np.arange(30.0), rng.integers(20, 60, 30).astype(float)
    for after in (12, 20):
        counts = rng.poisson(0.03 * against * np.exp(-0.9 * (time >= after))).astype(float)
        design = np.column_stack([np.ones(30), time, time >= after])
        family = sm.families.Poisson()
        known = sm.GLM(counts, design, family, offset=np.log(against)).fit(tol=1e-12)
        found, means = fit(counts, against, design[None])
        assert found[0] == pytest.approx(known.params, abs=1e-6)
        assert deviance(counts, means)[0] == pytest.approx(known.deviance)


def test_the_date_agrees_with_a_reference_library():
    """ruptures with jump=1 (its default of 5 misses the Nile's break), on random series."""
    rng = np.random.default_rng(8)
    for _ in range(20):
        values = rng.normal(0, 1, 60)
        values[rng.integers(15, 45) :] += 2
        segments = ruptures.Dynp(model="l2", min_size=9, jump=1).fit(values)
        found = turning_point(normal(values, trend=False))
        assert found.last + 1 == segments.predict(n_bkps=1)[0]


@pytest.mark.parametrize("trend", [False, True])
def test_noise_and_pure_drift_turn_nowhere(trend: bool):
    rng = np.random.default_rng(9)
    line = 0.3 * np.arange(20) if trend else 0
    p = [turning_point(normal(line + rng.normal(0, 1, 20), trend)).p for _ in range(150)]
    assert 0.015 < np.mean(np.array(p) < 0.05) < 0.09


def test_rare_counts_turn_nowhere():
    """Three a season, one season in twenty without any: none is dropped, and few are called."""
    rng = np.random.default_rng(13)
    drawn = [rng.poisson(3, 14).astype(float) for _ in range(150)]
    p = [turning_point(Series(y, np.ones(14))).p for y in drawn if y[:2].any() and y[-2:].any()]
    assert len(p) > 140 and np.mean(np.array(p) < 0.05) < 0.08


def test_a_step_on_a_trend_is_found_at_its_date():
    """The level before is that of the trend as it comes to the break, midway between two points."""
    rng = np.random.default_rng(10)
    values = 0.1 * np.arange(24) + 4 * (np.arange(24) >= 14) + rng.normal(0, 0.5, 24)
    counts, against = 1e6 * np.exp(0.01 * values), np.full(24, 1e6)
    found = turning_point(Series(counts, against))
    assert found.last == 13 and found.p < 0.01 and found.low <= 13 <= found.high
    design = np.column_stack([np.ones(24), np.arange(24), np.arange(24) >= 14])
    level, slope, step = np.linalg.lstsq(design, 0.01 * values, rcond=None)[0]
    assert (found.step, found.trend) == pytest.approx((step, slope), rel=2e-3)
    assert found.before == pytest.approx(level + 13.5 * slope, abs=1e-4)
    assert np.log(found.fitted[[13, 14]]) == pytest.approx(
        [found.before - found.trend / 2, found.before + found.trend / 2 + found.step]
    )


def test_a_point_that_is_left_out_keeps_its_place_in_time():
    """Half the trend is not taken for a step where ten seasons are missing."""
    time = np.array([*range(8), *range(18, 26)], float)
    wobble = np.random.default_rng(3).normal(0, 0.01, 16)
    counts = 1e6 * np.exp(0.05 * time + wobble)
    assert turning_point(Series(counts, np.ones(16), time)).p > 0.05
    assert turning_point(Series(counts, np.ones(16))).p < 0.001


def test_too_few_points_are_refused():
    with pytest.raises(FewPoints, match="5 points leave no date"):
        Series(np.arange(5.0), np.ones(5))


def test_a_series_that_has_none_at_one_end_is_refused():
    """A step down to nought has no size; seasons without any in the middle are kept."""
    counts = np.array([3.0, 5, 0, 4, 6, 2, 5, 0, 0, 3, 4, 5, 2, 1])
    assert turning_point(Series(counts, np.full(14, 20.0))).p > 0.05
    for ends in (counts * (np.arange(14) < 12), counts * (np.arange(14) > 1), counts * 0):
        with pytest.raises(NoFit):
            turning_point(Series(ends, np.full(14, 20.0)))
    with pytest.raises(NoFit, match="goes to nought"):  # only the first and the last
        fit(np.array([4.0, 0, 0, 0, 0, 0]), np.ones(6), _line(6))


def _line(count: int) -> np.ndarray:
    return np.column_stack([np.ones(count), np.arange(count)])[None]


@pytest.mark.parametrize("level", [0.02, 1.37])
@pytest.mark.parametrize("against", [np.full(14, 1e3), np.arange(3.0, 17.0) * 100])
def test_a_series_without_scatter_is_refused(level: float, against: np.ndarray):
    """All alike, on a line, or with one step: noise is what a step is held against."""
    time = np.arange(14)
    for logs in (np.zeros(14), 0.03 * time, 0.1 * (time >= 6)):
        with pytest.raises(NoScatter):
            turning_point(Series(level * against * np.exp(logs), against))
    wobbling = level * against * np.exp(1e-4 * np.sin(time))
    assert turning_point(Series(wobbling, against)).p > 0
