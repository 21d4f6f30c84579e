"""How much wider an error is where periods are alike, by whole matrices."""

from __future__ import annotations

import numpy as np

GRID = np.linspace(0.0, 0.95, 96)


def factor_of(before: np.ndarray, after: np.ndarray, known: float | None = None) -> float:
    """Of one cell: what each period of two windows does to their difference, in order of time."""
    count = len(before) + len(after)
    late = np.arange(count) >= len(before)
    levels = np.column_stack([np.ones(count), late.astype(float)])
    apart = abs(np.subtract.outer(np.arange(count), np.arange(count)))
    rho = likeness(np.concatenate([before, after]), levels) if known is None else known
    kept, solver = rho**apart, np.linalg.pinv(levels)
    maker, own = np.eye(count) - levels @ solver, solver[1]
    factor = own @ kept @ own / (own @ own)
    return max(1.0, float(factor / (np.trace(maker @ kept) / (count - 2))))


def likeness(moved: np.ndarray, levels: np.ndarray) -> float:
    """The correlation under which what a line with a step leaves over would be as alike."""
    count = len(moved)
    sloped = np.column_stack([levels, np.arange(count)])
    maker = np.eye(count) - sloped @ np.linalg.pinv(sloped)
    halves = np.diag(np.full(count - 1, 0.5), 1)
    halves = halves + halves.T
    apart = abs(np.subtract.outer(np.arange(count), np.arange(count)))
    expected = [
        np.trace(maker @ halves @ maker @ rho**apart) / np.trace(maker @ rho**apart) for rho in GRID
    ]
    residual = maker @ moved
    seen = (residual[1:] * residual[:-1]).sum() / (residual**2).sum()
    return float(np.interp(seen, np.maximum.accumulate(expected), GRID, left=0.0))
