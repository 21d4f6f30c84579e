"""p-values and what may be made of them: equivalence, families, permutation, proportions."""

from __future__ import annotations

import numpy as np
from scipy.stats import false_discovery_control, norm
from scipy.stats import t as student

from pipeline.significance.ratio import Estimate, Sums


def tost(estimate: Estimate, low: np.ndarray, high: np.ndarray) -> np.ndarray:
    """p of two one-sided tests that the value lies between low and high (Schuirmann 1987).

    Under 0.05 if and only if the 90 % interval lies inside the margins.
    """
    above = student.sf((estimate.value - low) / estimate.se, estimate.df)
    below = student.cdf((estimate.value - high) / estimate.se, estimate.df)
    return np.maximum(above, below)


def detectable(se: np.ndarray, alpha: float = 0.05, power: float = 0.8) -> np.ndarray:
    """The smallest true change seen with this power: about 2.8 standard errors."""
    return (norm.ppf(1 - alpha / 2) + norm.ppf(power)) * se


def holm(p: np.ndarray) -> np.ndarray:
    """Adjusted p-values that bound the chance of any false alarm in the family (Holm 1979)."""
    order = np.argsort(p, kind="stable")
    count = len(p)
    stepped = np.maximum.accumulate(p[order] * (count - np.arange(count)))
    adjusted = np.empty(count)
    adjusted[order] = np.minimum(stepped, 1.0)
    return adjusted


def benjamini_hochberg(p: np.ndarray) -> np.ndarray:
    """Adjusted p-values that bound the share of false alarms among the calls (1995)."""
    return false_discovery_control(p) if len(p) else np.array([])


def wilson(successes: int, trials: int, confidence: float = 0.95) -> tuple[float, float]:
    """Score interval of a proportion (Wilson 1927; Newcombe 1998a, method 3)."""
    z = norm.ppf(0.5 + confidence / 2)
    share = successes / trials
    middle = share + z * z / (2 * trials)
    half = z * np.sqrt(share * (1 - share) / trials + z * z / (4 * trials * trials))
    scale = 1 + z * z / trials
    return float(max(0.0, (middle - half) / scale)), float(min(1.0, (middle + half) / scale))


def newcombe(
    successes_a: int, trials_a: int, successes_b: int, trials_b: int, confidence: float = 0.95
) -> tuple[float, float]:
    """Interval of a - b of two proportions of matches (Newcombe 1998b, method 10)."""
    a, b = successes_a / trials_a, successes_b / trials_b
    low_a, high_a = wilson(successes_a, trials_a, confidence)
    low_b, high_b = wilson(successes_b, trials_b, confidence)
    low = a - b - np.hypot(a - low_a, high_b - b)
    high = a - b + np.hypot(high_a - a, b - low_b)
    return float(low), float(high)


def permute_windows(
    a: Sums, b: Sums, blocks: np.ndarray, draws: int, rng: np.random.Generator
) -> np.ndarray:
    """p of a studentised permutation of whole matches between two windows, within blocks.

    The robustness check beside the t test (Chung & Romano 2013). `blocks` labels the rows of a,
    then of b; a match keeps its totals and changes side only within its block. The p-value is
    (hits + 1) / (draws + 1), so it is never zero. Deterministic for a given generator.
    """
    totals = Sums(*(np.concatenate(pair) for pair in zip(a, b, strict=True)))
    side = np.repeat([False, True], [len(a.y), len(b.y)])
    observed = _studentised(totals, side[None, :])[0]
    shuffled = np.stack([_shuffle(side, blocks, rng) for _ in range(draws)])
    drawn = _studentised(totals, shuffled)
    hits = (np.abs(drawn) >= np.abs(observed) * (1 - 1e-12)).sum(0)
    return (hits + 1) / (draws + 1)


def _shuffle(side: np.ndarray, blocks: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """Deal the sides out anew inside each block: sort by block, then by chance."""
    order = np.lexsort((rng.random(len(side)), blocks))
    home = np.argsort(blocks, kind="stable")
    dealt = np.empty_like(side)
    dealt[home] = side[order]
    return dealt


def _studentised(totals: Sums, sides: np.ndarray) -> np.ndarray:
    """(log R_b - log R_a) / its linearised error for each row of sides, (draws, cells)."""
    moments = [totals.y, totals.x, totals.y**2, totals.y * totals.x, totals.x**2, totals.here]
    difference, variance = 0.0, 0.0
    for sign, chosen in ((-1, ~sides), (1, sides)):
        weights = chosen.astype(float)
        y, x, yy, yx, xx, count = (weights @ moment.astype(float) for moment in moments)
        with np.errstate(divide="ignore", invalid="ignore"):
            r = y / x
            difference = difference + sign * np.log(r)
            residual = yy - 2 * r * yx + r * r * xx
            variance = variance + count / (count - 1) * residual / y**2
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.nan_to_num(difference / np.sqrt(variance), nan=0.0, posinf=0.0, neginf=0.0)


def permute_within(a: Sums, b: Sums, draws: int, rng: np.random.Generator) -> np.ndarray:
    """The same check for two groups that share matches: each match swaps its two groups or not."""
    swaps = rng.random((draws, len(a.y))) < 0.5
    observed = _paired(a, b, np.zeros((1, len(a.y)), bool))
    drawn = _paired(a, b, swaps)
    hits = (np.abs(drawn) >= np.abs(observed[0]) * (1 - 1e-12)).sum(0)
    return (hits + 1) / (draws + 1)


def _paired(a: Sums, b: Sums, swaps: np.ndarray) -> np.ndarray:
    """Studentised difference for each row of swaps, one cell at a time: (draws, cells)."""
    columns = []
    for cell in range(a.y.shape[1]):
        ya, xa = _swapped(a, b, cell, swaps)
        yb, xb = _swapped(b, a, cell, swaps)
        count = (a.here[:, cell] | b.here[:, cell]).sum()
        ra, rb = (ya.sum(1) / xa.sum(1))[:, None], (yb.sum(1) / xb.sum(1))[:, None]
        with np.errstate(divide="ignore", invalid="ignore"):
            effect = np.log(rb / ra)[:, 0]
            parts = (yb - rb * xb) / yb.sum(1, keepdims=True)
            parts = parts - (ya - ra * xa) / ya.sum(1, keepdims=True)
            error = np.sqrt(count / (count - 1) * (parts**2).sum(1))
            columns.append(np.nan_to_num(effect / error, nan=0.0, posinf=0.0, neginf=0.0))
    return np.stack(columns, axis=1)


def _swapped(own: Sums, other: Sums, cell: int, swaps: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    y = np.where(swaps, other.y[:, cell], own.y[:, cell]).astype(float)
    x = np.where(swaps, other.x[:, cell], own.x[:, cell]).astype(float)
    return y, x
