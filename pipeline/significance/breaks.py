"""When did it really change, without being told: the largest F over all dates, and its date.

Andrews (1993) for the test, Bai (1997) for the interval of the date.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from scipy.optimize import brentq
from scipy.stats import norm

LEAST_POINTS = 6


class Break(NamedTuple):
    """`last` is the position of the last point before the break (0-based), `low` and `high` its
    interval; `step` with its error as if the date had been known; `f` the F at every admissible
    date, in the order of `dates` (points before the break); `p` by simulation; `bic` of the model,
    and `fitted` its value at every point.
    """

    last: int
    low: int
    high: int
    step: float
    step_se: float
    sup_f: float
    p: float
    bic: float
    dates: np.ndarray
    f: np.ndarray
    fitted: np.ndarray


def turning_point(
    values: np.ndarray,
    weights: np.ndarray | None = None,
    trend: bool = True,
    trim: float = 0.15,
    draws: int = 999,
    confidence: float = 0.95,
    known: tuple[int, ...] = (),
) -> Break:
    """The likeliest break in the level of a series, with a trend in the model or without.

    `trim` of the points at each end can't hold the break, nor can as many on either side of breaks
    that are `known` (their points before) and so part of the model. p is the share of series of
    pure noise (around the same model, seed fixed) whose largest F is as large, (hits + 1) /
    (draws + 1). Raises ValueError when the trimming leaves no date.
    """
    count = len(values)
    edge = max(1, math.floor(trim * count + 1e-9))
    dates = np.arange(edge, count - edge + 1)  # the number of points before the break
    for one in known:
        dates = dates[np.abs(dates - one) >= edge]
    if len(dates) < 1 or count < LEAST_POINTS:
        raise ValueError(f"{count} points leave no date to look at")
    root = np.sqrt(np.ones(count) if weights is None else weights / weights.mean())
    columns = [np.ones(count), np.arange(count) - (count - 1) / 2][: 2 if trend else 1]
    columns += [np.arange(count) >= one for one in known]
    basis, _ = np.linalg.qr(np.column_stack(columns) * root[:, None])
    steps = (np.arange(count)[None, :] >= dates[:, None]) * root
    steps = steps - steps @ basis @ basis.T
    f = _f(values * root, basis, steps)
    noise = np.random.default_rng(1).standard_normal((draws, count))
    largest = np.array([_f(each, basis, steps).max() for each in noise])
    p = ((largest >= f.max() * (1 - 1e-12)).sum() + 1) / (draws + 1)
    before = int(dates[int(f.argmax())])
    step, se, residual = _fitted(values, root, columns, before)
    low, high = _interval(residual, step, before, confidence)
    inside = (max(low, 0), min(high, count - 2))
    size = count * math.log(((residual * root) ** 2).sum() / count)
    bic = size + (len(columns) + 2 + len(known)) * math.log(count)
    return Break(
        before - 1, *inside, step, se, float(f.max()), float(p), bic, dates, f, values - residual
    )


def _fitted(
    values: np.ndarray, root: np.ndarray, columns: list[np.ndarray], before: int
) -> tuple[float, float, np.ndarray]:
    """(the step, its error with the date taken as known, the residuals)."""
    after = np.arange(len(values)) >= before
    design = np.column_stack([*columns, after]).astype(float)
    weighted = design * root[:, None]
    found = np.linalg.lstsq(weighted, values * root, rcond=None)[0]
    residual = values - design @ found
    variance = ((residual * root) ** 2).sum() / (len(values) - design.shape[1])
    error = math.sqrt(variance * np.linalg.inv(weighted.T @ weighted)[-1, -1])
    return float(found[-1]), error, residual


def _f(z: np.ndarray, basis: np.ndarray, steps: np.ndarray) -> np.ndarray:
    """F of adding each step to the model of the basis."""
    residual = z - basis @ (basis.T @ z)
    whole = residual @ residual
    gain = (steps @ residual) ** 2 / (steps**2).sum(1)
    df = len(z) - basis.shape[1] - 1
    return gain / ((whole - gain) / df)


def _interval(residual: np.ndarray, step: float, before: int, confidence: float) -> tuple[int, int]:
    """Bai's interval of the last point before the break, the variance its own on each side."""
    ahead, behind = residual[:before].var(), residual[before:].var()
    scale = step**2 / ahead if ahead > 0 else math.inf
    ratio = behind / ahead if ahead > 0 else 1.0
    if not math.isfinite(scale) or scale == 0 or ratio <= 0:
        return before - 1, before - 1
    tail = (1 - confidence) / 2
    high = bai_quantile(1 - tail, 1.0, ratio) / scale
    low = bai_quantile(tail, 1.0, ratio) / scale
    return before - 1 - math.ceil(high), before - 1 - math.floor(low)


def bai_quantile(probability: float, xi: float, phi: float) -> float:
    """A quantile of the date's limiting law: the argmax of a two-sided drifting Brownian motion."""
    edge = 1.0
    while _bai(edge, xi, phi) < probability or _bai(-edge, xi, phi) > probability:
        edge *= 2
    return float(brentq(lambda v: _bai(v, xi, phi) - probability, -edge, edge))


def _bai(v: float, xi: float, phi: float) -> float:
    """Its distribution function (Bai 1997, appendix B)."""
    if v <= 0:
        x, ratio = -v, xi / phi
        a, b = ratio * (1 + ratio) / 2, 0.5 + ratio
        c = phi * (phi + 2 * xi) / ((phi + xi) * xi)
        d = (phi + 2 * xi) ** 2 / ((phi + xi) * xi)
        tail = norm.logcdf(-b * math.sqrt(x))
        return float(
            -math.sqrt(x / (2 * math.pi)) * math.exp(-x / 8)
            - c * math.exp(a * x + tail)
            + (d - 2 + x / 2) * norm.cdf(-math.sqrt(x) / 2)
        )
    a, b = (phi + xi) / 2, (2 * phi + xi) / (2 * math.sqrt(phi))
    c = xi * (xi + 2 * phi) / ((phi + xi) * phi)
    d = (xi + 2 * phi) ** 2 / ((phi + xi) * phi)
    return float(
        1
        + xi * math.sqrt(v / (2 * math.pi * phi)) * math.exp(-(xi**2) * v / (8 * phi))
        + c * math.exp(a * v + norm.logcdf(-b * math.sqrt(v)))
        + (-d + 2 - xi**2 * v / (2 * phi)) * norm.cdf(-xi * math.sqrt(v) / (2 * math.sqrt(phi)))
    )
