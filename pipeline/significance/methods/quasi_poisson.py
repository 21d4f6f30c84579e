"""A regression of counts on several things at once, their spread left free; errors by clusters.

McCullagh & Nelder (1989, Generalized Linear Models, ch. 6; the spread by Pearson's statistic, as
Wedderburn 1974 has it). Errors by clusters after Liang & Zeger (1986, Biometrika 73), with the
small-sample factors of common use (Cameron & Miller 2015, Journal of Human Resources 50).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pipeline.significance.methods import log_linear, weighted
from pipeline.significance.methods.permutation import Labels
from pipeline.significance.methods.ratio import Bools, Estimate, Floats

APART = 1e-7  # of a column’s length: what is left of it beside the others is rounding


class Regression(NamedTuple):
    """A fit of counts: coefficients (terms,) are logs of rate ratios.

    `bread` (terms, terms) is the inverse information of a Poisson model, `scores` (points, terms)
    what each point says about each coefficient; the spread is how many times a Poisson count's own
    the variance is.
    """

    coefficients: Floats
    means: Floats
    bread: Floats
    scores: Floats
    spread: float
    deviance: float
    df: int

    @property
    def estimate(self) -> Estimate:
        """Every coefficient with its error, points independent; t with n - k."""
        variance = self.spread * np.diagonal(self.bread)
        return Estimate(self.coefficients, np.sqrt(variance), _every(self.coefficients, self.df))


def quasi_poisson(y: Floats, exposure: Floats, design: Floats) -> Regression:
    """Counts y (points,) with a known exposure (its log is the offset) on a design (points, terms).

    Raises NoFit where the likelihood has no largest value, Indistinct where a term of the design is
    made of the others or there are no more points than terms, ValueError for an exposure of nought.
    """
    if not np.all(exposure > 0):
        raise ValueError("every point has an exposure above nought")
    nothing = np.zeros((len(y), 1))
    weighted.fit(nothing, exposure[:, None], design)  # whether it can be fitted
    coefficients, means = (found[0] for found in log_linear.fit(y, exposure, design[None]))
    solver = weighted.fit(nothing, means[:, None], design)
    bread = solver.inverse[0] / means.mean()
    off = y - means
    return Regression(
        coefficients,
        means,
        bread,
        scores=design * off[:, None],
        spread=float((off**2 / means).sum() / solver.df),
        deviance=float(log_linear.deviance(y, means)),
        df=solver.df,
    )


def by_cluster(found: Regression, labels: Labels) -> Estimate:
    """Every coefficient with an error that lets the points of a cluster go together.

    `labels` (points,) name the clusters, G of them; the variance has the factor G / (G - 1), t has
    G - 1 degrees of freedom. Under some forty clusters that is too narrow, and far too narrow where
    a term is the same in all of a cluster but a few (Cameron & Miller 2015): take the jackknife of
    `clusters.py` where the question is a change.
    """
    variance, count = sandwich(found.bread, found.scores, labels)
    error = np.sqrt(np.diagonal(variance))
    return Estimate(found.coefficients, error, _every(found.coefficients, count - 1))


def sandwich(bread: Floats, scores: Floats, labels: Labels) -> tuple[Floats, int]:
    """(covariance of the coefficients (terms, terms), clusters G): G/(G-1) B (sum s_g s_g') B.

    `scores` (points, terms), summed over each cluster's points. Raises ValueError for fewer than
    two clusters or labels of another number.
    """
    names, row = np.unique(labels, return_inverse=True)
    if len(row) != len(scores) or len(names) < 2:
        raise ValueError("there is one label a point, of two clusters at least")
    summed = np.zeros((len(names), scores.shape[1]))
    np.add.at(summed, row, scores)
    half = np.einsum("gp,pq->gq", summed, bread)
    covariance: Floats = len(names) / (len(names) - 1) * np.einsum("gp,gq->pq", half, half)
    return covariance, len(names)


def _every(like: Floats, value: float) -> Floats:
    return np.full(len(like), float(value))


def independent(columns: Floats) -> Bools:
    """Which columns (points, terms) are no sum of those before them; the first of each kind stay.

    A dummy of a value that goes with another's every point is such a sum, and so is one of nothing.
    """
    kept = np.zeros(columns.shape[1], bool)
    basis = np.zeros((columns.shape[0], 0))
    for place, column in enumerate(columns.T):
        rest = column - basis @ (basis.T @ column)
        rest = rest - basis @ (basis.T @ rest)
        length = np.linalg.norm(rest)
        if length > APART * np.linalg.norm(column):
            kept[place] = True
            basis = np.column_stack([basis, rest / length])
    return kept
