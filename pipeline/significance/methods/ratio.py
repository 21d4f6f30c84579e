"""One ratio of two sums over matches, and the change between two of them.

Everywhere: `y` and `x` are (matches, cells) arrays of a match's numerator and denominator totals,
and `here` is a (matches, cells) mask of the matches that belong to the cell. Work is on the log of
the ratio, with delete-one-match jackknife variances and t with matches - 1 degrees of freedom
(Efron & Tibshirani 1993, ch. 11; Cochran 1977, ch. 6): intervals stay positive, changes are
percentages, and coverage holds from about six matches up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtr, stdtrit

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


class Sums(NamedTuple):
    """Match totals of some cells: numerator, denominator, and which matches belong to each."""

    y: Floats
    x: Floats
    here: Bools


@dataclass(frozen=True)
class Estimate:
    """A value with its standard error and degrees of freedom, on the scale it was made on."""

    value: Floats
    se: Floats
    df: Floats

    def interval(self, confidence: float) -> tuple[Floats, Floats]:
        """Symmetric t interval on this scale."""
        half = stdtrit(self.df, 0.5 + confidence / 2) * self.se
        return self.value - half, self.value + half

    def p_value(self) -> Floats:
        """Two-sided, against zero."""
        p: Floats = 2 * stdtr(self.df, -np.abs(self.value) / self.se)
        return p


def ratio(sums: Sums) -> Floats:
    """sum(y) / sum(x) of each cell; infinite or undefined where x sums to nothing."""
    with np.errstate(divide="ignore", invalid="ignore"):
        value: Floats = sums.y.sum(0) / sums.x.sum(0)
    return value


def delete_one(sums: Sums) -> Floats:
    """The ratio without each match in turn, (matches, cells).

    A match outside a cell has no totals there, so its row is the cell's full ratio.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        replicates: Floats = (sums.y.sum(0) - sums.y) / (sums.x.sum(0) - sums.x)
    return replicates


def jackknife_variance(replicates: Floats, here: Bools) -> Floats:
    """(G-1)/G times the squared deviations of the G replicates of each cell."""
    count = here.sum(0)
    kept = np.where(here, replicates, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = kept.sum(0) / count
        spread = np.where(here, (replicates - mean) ** 2, 0.0).sum(0)
        variance: Floats = (count - 1) / count * spread
    return variance


def effective_matches(sizes: Floats) -> Floats:
    """(sum x)^2 / sum x^2: how many equal matches the unequal ones are worth."""
    with np.errstate(divide="ignore", invalid="ignore"):
        worth: Floats = sizes.sum(0) ** 2 / (sizes**2).sum(0)
    return worth


def log_ratio(sums: Sums) -> Estimate:
    """log of the ratio of each cell, jackknifed over its matches."""
    with np.errstate(divide="ignore", invalid="ignore"):
        replicates = np.log(delete_one(sums))
        value = np.log(ratio(sums))
    return Estimate(value, _root(jackknife_variance(replicates, sums.here)), _df(sums.here))


def plain_ratio(sums: Sums) -> Estimate:
    """The ratio itself, jackknifed over its matches: for differences in units."""
    return Estimate(
        ratio(sums), _root(jackknife_variance(delete_one(sums), sums.here)), _df(sums.here)
    )


def _df(here: Bools) -> Floats:
    df: Floats = (here.sum(0) - 1).astype(float)
    return df


def _root(variance: Floats) -> Floats:
    with np.errstate(invalid="ignore"):
        root: Floats = np.sqrt(variance)
    return root


def welch(a: Estimate, b: Estimate) -> Estimate:
    """b - a of two independent estimates, with Welch and Satterthwaite's degrees of freedom."""
    va, vb = a.se**2, b.se**2
    with np.errstate(divide="ignore", invalid="ignore"):
        df = (va + vb) ** 2 / (va**2 / a.df + vb**2 / b.df)
    return Estimate(b.value - a.value, np.sqrt(va + vb), df)


def change(a: Sums, b: Sums, log: bool = True) -> Estimate:
    """b - a of two groups of different matches, on the log scale or in units."""
    scale = log_ratio if log else plain_ratio
    return welch(scale(a), scale(b))


def change_within(a: Sums, b: Sums, log: bool = True) -> Estimate:
    """b - a of two groups that share matches (rows of both are the same matches).

    Each match is deleted from both at once, so that what the groups share cancels.
    """
    scale = np.log if log else np.asarray
    here = a.here | b.here
    with np.errstate(divide="ignore", invalid="ignore"):
        replicates = scale(delete_one(b)) - scale(delete_one(a))
        value = scale(ratio(b)) - scale(ratio(a))
    return Estimate(value, _root(jackknife_variance(replicates, here)), _df(here))


def gap(a_before: Sums, a_after: Sums, b_before: Sums, b_after: Sums, log: bool = True) -> Estimate:
    """How much more b changed than a did: the difference of their two changes.

    Inside each window the two groups share matches and are jackknifed together; the windows are
    different matches. "Significant here, not there" is no such difference (Gelman & Stern 2006).
    """
    before = change_within(a_before, b_before, log)
    return welch(before, change_within(a_after, b_after, log))


def influence(sums: Sums) -> Floats:
    """Each match's linear influence on its cell's log ratio: (y - R x) / sum(y)."""
    with np.errstate(divide="ignore", invalid="ignore"):
        of_each: Floats = (sums.y - ratio(sums) * sums.x) / sums.y.sum(0)
    return of_each


def linearised_se(sums: Sums) -> Floats:
    """Standard error of the log ratio by linearisation, sqrt(G/(G-1) * sum of influence^2)."""
    count = sums.here.sum(0)
    with np.errstate(divide="ignore", invalid="ignore"):
        error: Floats = np.sqrt(count / (count - 1) * (influence(sums) ** 2).sum(0))
    return error
