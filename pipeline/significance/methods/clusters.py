"""Errors at the level of a cut: whole grounds, sides, batters or periods left out, not matches.

Matches at one ground, balls of one batter and matches of one year have something in common that
their number does not wear away, so that leaving out one match at a time calls far too much a change
where the question is about grounds, batters or years. Here whole clusters are left out: the
delete-one-cluster jackknife (Efron & Tibshirani 1993, ch. 11; MacKinnon, Nielsen & Webb 2023,
Journal of Econometrics 232, on how few clusters bear it). Which level a cut stands at is the
caller's to say; `wider` takes the larger of two errors, since either level may be the one that
counts (own simulations, tests/test_clusters.py).

Everywhere the rows of a Sums are clusters: `gathered` makes them of matches, and totals that came a
batter or a bowler a row are clusters already.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pipeline.significance.methods.permutation import Labels
from pipeline.significance.methods.ratio import (
    Bools,
    Estimate,
    Floats,
    Sums,
    delete_one,
    effective_matches,
    ratio,
)


class Deleted(NamedTuple):
    """A number of each cell with what every cluster does to it.

    `moved` (clusters, cells) is how far the number moves without each cluster, scaled so that the
    squares add up to its variance, and nought for clusters outside the cell; `here` their mask.
    `worth` is how many equal clusters the unequal ones are worth.
    """

    value: Floats
    moved: Floats
    here: Bools
    df: Floats
    worth: Floats

    @property
    def variance(self) -> Floats:
        squares: Floats = (self.moved**2).sum(0)
        return squares


class Wider(NamedTuple):
    """The wider of two estimates, cell by cell, and where it is the clusters'."""

    estimate: Estimate
    by_cluster: Bools


def gathered(sums: Sums, labels: Labels, order: Labels | None = None) -> Sums:
    """Totals of the clusters, rows in the order of the sorted labels (or of `order`).

    `labels` (rows,) has one a row of `sums`, none missing. Raises ValueError for labels of another
    number, or that `order` (sorted, each once) has not.
    """
    labels = np.asarray(labels)
    names = np.unique(labels) if order is None else np.asarray(order)
    if len(labels) != len(sums.y) or not np.isin(labels, names).all():
        raise ValueError("there is one label a row, and each of them in the order")
    row, shape = np.searchsorted(names, labels), (len(names), sums.y.shape[1])
    y, x, here = np.zeros(shape), np.zeros(shape), np.zeros(shape, bool)
    np.add.at(y, row, sums.y)
    np.add.at(x, row, sums.x)
    np.logical_or.at(here, row, sums.here)
    return Sums(y, x, here)


def aligned(a: Sums, labels_a: Labels, b: Sums, labels_b: Labels) -> tuple[Sums, Sums]:
    """Both sides by the same clusters: a cluster that a side has not is an empty row of it."""
    names = np.union1d(labels_a, labels_b)
    return gathered(a, labels_a, names), gathered(b, labels_b, names)


def deleted(sums: Sums, log: bool = True) -> Deleted:
    """One ratio (its log, or in units) with each cluster left out in turn."""
    scale = np.log if log else np.asarray
    with np.errstate(divide="ignore", invalid="ignore"):
        replicates, value = scale(delete_one(sums)), scale(ratio(sums))
    return replicated(value, replicates, sums.here, sums.x)


def replicated(value: Floats, replicates: Floats, here: Bools, sizes: Floats) -> Deleted:
    """Any number, from what it is without each cluster: (clusters, cells), as are their sizes."""
    count = here.sum(0)
    with np.errstate(divide="ignore", invalid="ignore"):
        kept = np.where(here, replicates, 0.0)
        off = np.where(here, replicates - kept.sum(0) / count, 0.0)
        moved = off * np.sqrt((count - 1) / count)
    return Deleted(value, moved, here, count - 1.0, effective_matches(sizes))


def minus(second: Deleted, first: Deleted) -> Deleted:
    """second - first, rows the same clusters: each is left out of both at once.

    What a cluster does to both alike cancels. The degrees of freedom are Welch and Satterthwaite's,
    and never more than all clusters less one: with no cluster in common it is Welch's test, with
    every cluster in both the paired one.
    """
    here = first.here | second.here
    va, vb = first.variance, second.variance
    with np.errstate(divide="ignore", invalid="ignore"):
        welch = (va + vb) ** 2 / (va**2 / first.df + vb**2 / second.df)
        worth = 2 / (1 / first.worth + 1 / second.worth)
    df = np.fmin(welch, here.sum(0) - 1.0)
    return Deleted(second.value - first.value, second.moved - first.moved, here, df, worth)


def estimate(found: Deleted) -> Estimate:
    """The number with its error by clusters."""
    return Estimate(found.value, np.sqrt(found.variance), found.df)


def change(a: Sums, b: Sums, log: bool = True) -> Estimate:
    """b - a, rows the same clusters (`aligned`): windows, or groups, that share some or all.

    Of clusters that are in one side only it is `ratio.change`, of clusters in both
    `ratio.change_within`.
    """
    return estimate(minus(deleted(b, log), deleted(a, log)))


def gap(a_before: Sums, a_after: Sums, b_before: Sums, b_after: Sums, log: bool = True) -> Estimate:
    """How much more b changed than a did, each cluster left out of all four at once."""
    before = minus(deleted(b_before, log), deleted(a_before, log))
    after = minus(deleted(b_after, log), deleted(a_after, log))
    return estimate(minus(after, before))


def pooled(before: Deleted, after: Deleted) -> Estimate:
    """after - before of periods, one spread for both windows; t with periods - 2.

    A period's own luck is taken to be as large in both windows, as in Student's test of two
    samples: five periods a side are too few to tell two spreads. Either may be a difference of
    groups (`minus`); a window of one period adds nothing to the spread.
    """
    df = before.df + after.df
    with np.errstate(divide="ignore", invalid="ignore"):
        spread = sum(
            np.where(window.df > 0, window.df * window.variance * window.worth, 0.0)
            for window in (before, after)
        )
        variance = spread / df * (1 / before.worth + 1 / after.worth)
    return Estimate(after.value - before.value, np.sqrt(variance), df)


def pooled_change(a: Sums, b: Sums, log: bool = True) -> Estimate:
    """b - a of two windows whose rows are their periods."""
    return pooled(deleted(a, log), deleted(b, log))


def wider(match: Estimate, cluster: Estimate, confidence: float = 0.95) -> Wider:
    """The estimate whose interval at this confidence is wider: error and degrees of freedom.

    Ask once, at one confidence, and keep the answer for every test: at others the two may change
    places. Where one of a pair has no error there is none, never the other's in its place: such a
    cell is refused. Raises ValueError where the two are not of the same values.
    """
    widths = [np.subtract(*each.interval(confidence)[::-1]) for each in (match, cluster)]
    both = np.isfinite(widths).all(0)
    if not np.allclose(match.value[both], cluster.value[both], rtol=1e-9, atol=1e-12):
        raise ValueError("two errors of different values can't be compared")
    by_cluster: Bools = both & (widths[1] > widths[0])
    se, df = (
        np.where(by_cluster, getattr(cluster, name), getattr(match, name)) for name in ("se", "df")
    )
    return Wider(Estimate(match.value, np.where(both, se, np.nan), df), by_cluster)
