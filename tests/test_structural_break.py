"""The date of a break and its interval, recomputed plainly."""

from __future__ import annotations

import numpy as np
import pytest

from pipeline.significance.methods.structural_break import NoScatter, turning_point

LIMIT = 7.35  # Eo & Morley 2015, table 1: the likelihood-ratio set's limit at 95 %


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
    found = turning_point(values, draws=9)
    left = np.array([squares(values, before) for before in found.dates])
    inside = found.dates[20 * np.log(left / left.min()) <= LIMIT]
    assert (found.low, found.last, found.high) == (
        inside.min() - 1,
        found.dates[left.argmin()] - 1,
        inside.max() - 1,
    )


@pytest.mark.parametrize("level", [0.0, 1.37, -2.5])
@pytest.mark.parametrize("weights", [None, np.arange(3.0, 17.0)])
def test_a_series_without_scatter_is_refused(level: float, weights: np.ndarray | None):
    """All alike, on a line, or with one step: noise is what a step is held against."""
    time = np.arange(14)
    for values in (np.full(14, level), level + 0.3 * time, level + (time >= 6)):
        with pytest.raises(NoScatter):
            turning_point(values, weights, draws=9)
    assert turning_point(level + 1e-6 * np.sin(time), weights, draws=9).p > 0
