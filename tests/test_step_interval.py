"""The interval of a step whose date was searched for."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import t as student

from pipeline.significance.methods.neighbours import DRAWS
from pipeline.significance.methods.step_interval import lacking, step_interval
from pipeline.significance.methods.structural_break import Series, turning_point

LEVELS = (0.9, 0.95, 0.99, 0.999)


def stepped(seed: int, size: float, at: int = 8, noise: float = 0.02, count: int = 14) -> Series:
    """Seasons of uneven length on a drift, with a step."""
    rng, time = np.random.default_rng(seed), np.arange(count)
    against = rng.integers(2_000, 6_000, count).astype(float)
    logs = 0.01 * time + size * (time >= at) + rng.normal(0, noise, count)
    return Series(np.round(0.8 * against * np.exp(logs)), against)


@settings(max_examples=40, deadline=None)
@given(
    st.integers(0, 10_000),
    st.floats(-0.2, 0.2),
    st.integers(2, 12),
    st.sampled_from(LEVELS),
    st.sampled_from([0.005, 0.02, 0.1]),
)
def test_none_is_left_out_exactly_where_p_is_below_the_level(seed, size, at, level, noise):
    series = stepped(seed, size, at, noise)
    found = turning_point(series)
    low, high = step_interval(series, found, level)
    assert low <= found.step <= high and math.isfinite(high - low)
    assert (low > 0 or high < 0) == (found.p < 1 - level)


@pytest.mark.parametrize("seed", range(5))
def test_surer_is_wider(seed: int):
    series = stepped(seed, -0.09)
    found = turning_point(series)
    ends = [step_interval(series, found, level) for level in LEVELS]
    lows, highs = zip(*ends, strict=True)
    fine = 1e-5  # what the halving leaves open
    assert np.all(np.diff(lows) <= fine) and np.all(np.diff(highs) >= -fine)


def test_p_never_falls_on_a_level():
    """Hits and one over a prime are no share of a hundred or of a number of looks."""
    assert all((DRAWS + 1) % divisor for divisor in range(2, math.isqrt(DRAWS + 1) + 1))


def test_a_date_that_nobody_could_miss_has_the_plain_interval():
    """Far above the noise the search adds nothing: the interval is that of a known date."""
    series = stepped(3, -0.5, noise=0.01)
    found = turning_point(series)
    low, high = step_interval(series, found)
    half = student.ppf(0.975, series.df) * found.error
    assert (low, high) == pytest.approx((found.step - half, found.step + half), rel=0.01)


def test_a_small_step_has_more_than_the_plain_interval():
    """Where other dates would do as well, their steps are inside too."""
    series = stepped(1, -0.02)
    found = turning_point(series)
    low, high = step_interval(series, found)
    assert low < 0 < high
    assert high - low > 1.5 * 2 * student.ppf(0.975, series.df) * found.error


def test_simulated_series_lack_what_a_plain_fit_of_each_lacks():
    """Against least squares of every simulated series, date by date."""
    series, date, size = stepped(1, 0.05), 4, 2.5
    noise, root = series.neighbours.noise(0.0), np.sqrt(series.plain)
    found = lacking(noise, date, size, series.df)
    after, columns = series.after.astype(float), series.columns * root[:, None]
    step = size / noise.length[date]
    drawn = np.random.default_rng(1).standard_normal((DRAWS, len(root)))[:5]
    for values, lack in zip(drawn + step * after[date] * root, found, strict=False):
        held = min(_left(columns, values - step * each * root) for each in after)
        free = min(_left(np.column_stack([columns, each * root]), values) for each in after)
        assert lack == pytest.approx((held - free) / (free / series.df), abs=1e-8)


def _left(design: np.ndarray, values: np.ndarray) -> float:
    return float(((values - design @ np.linalg.lstsq(design, values, rcond=None)[0]) ** 2).sum())


def test_a_level_is_between_none_and_all():
    series = stepped(1, 0.05)
    with pytest.raises(ValueError, match="no level"):
        step_interval(series, turning_point(series), 1.0)
    low, high = step_interval(series, turning_point(series), 0.99999)  # more than the draws can say
    assert low <= 0 <= high


SPARSE = [
    ([14, 13, 24, 8, 24, 4], [128, 215, 185, 167, 195, 28]),
    ([3, 1, 4, 0, 2, 5], [90, 30, 120, 60, 45, 200]),
    ([2, 5, 1, 0, 0, 3, 4, 6], [40, 160, 25, 30, 50, 44, 90, 75]),
]


@pytest.mark.parametrize("level", [0.95, 0.99, 0.995, 0.999])
@pytest.mark.parametrize(("counts", "against"), SPARSE)
def test_a_sparse_series_has_ends_at_every_level(counts, against, level: float):
    """Steps that some date, or no date, can bear are tried on the way; they are outside."""
    series = Series(np.array(counts, float), np.array(against, float))
    found = turning_point(series)
    low, high = step_interval(series, found, level)
    assert low <= found.step <= high and math.isfinite(high - low)
    assert (low > 0 or high < 0) == (found.p < 1 - level)
