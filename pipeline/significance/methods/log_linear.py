"""Counts as a log-linear model of their rate: Poisson likelihood, the spread left free.

A point without a single count is a point like any other: there is no logarithm of a nought in it.
Nelder & Wedderburn (1972) for the fit, Wedderburn (1974) for the spread (quasi-likelihood).
"""

from __future__ import annotations

import numpy as np
from scipy.special import xlogy

from pipeline.significance.methods.ratio import Floats

ROUNDS = 60  # a fit that exists is there in fewer than ten
FARTHEST = 15.0  # from the pooled rate, on the log scale: a three-millionth of it is no rate


class NoFit(ValueError):
    """The likelihood has no largest value: it grows for ever towards a rate of nought."""


def fit(y: Floats, exposure: Floats, designs: Floats) -> tuple[Floats, Floats]:
    """(coefficients (models, terms), means (models, points)) by iterated weighted least squares.

    `y` are counts (points,), `exposure` what each would be at a log rate of nought (points,), or
    (models, points) where a known part of the rate differs; `designs` (models or 1, points, terms).
    Raises NoFit where a model has no finite fit.
    """
    exposure = np.atleast_2d(exposure)
    models = max(len(exposure), len(designs))
    exposure = np.broadcast_to(exposure, (models, len(y)))
    designs = np.broadcast_to(designs, (models, *designs.shape[1:]))
    known = np.log(exposure)
    pooled = exposure * (y.sum() / exposure.sum(1))[:, None]
    mean = (y + pooled) / 2  # a first guess without a nought
    before = np.full(models, np.inf)
    for _ in range(ROUNDS):
        working = np.log(mean) - known + (y - mean) / mean
        coefficients = _solved(designs, mean, working)
        linear = np.einsum("mnp,mp->mn", designs, coefficients) + known
        if np.abs(linear - np.log(pooled)).max() > FARTHEST:
            raise NoFit("a rate goes to nought")
        mean = np.exp(linear)
        now = deviance(y, mean)
        if np.all(np.abs(now - before) <= 1e-10 * (now + 1e-6 * y.sum())):
            return coefficients, mean
        before = now
    raise NoFit("no fit was reached")


def deviance(y: Floats, mean: Floats) -> Floats:
    """Twice what the log likelihood lacks of a perfect fit: the sum of squares of counts."""
    found: Floats = 2 * (xlogy(y, y / mean) - (y - mean)).sum(-1)
    return found


def _solved(designs: Floats, weight: Floats, working: Floats) -> Floats:
    normal = np.einsum("mnp,mn,mnq->mpq", designs, weight, designs)
    moments = np.einsum("mnp,mn,mn->mp", designs, weight, working)
    try:
        return np.linalg.solve(normal, moments[..., None])[..., 0]
    except np.linalg.LinAlgError:
        raise NoFit("a term can’t be told from the others") from None
