"""The level of a question: whose luck a change, or a difference of groups, is held against.

A change between windows is held against how periods differ among themselves, a difference of
grounds against how grounds do: the error is the wider of the one by matches and the one by whole
clusters left out (`methods/clusters.py`), cell by cell. Where too few periods bear no error the one
by matches stands, and is said to; a difference of groups is refused then.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

import numpy as np

from pipeline.contracts.codes import ClusterOf, FewClusters
from pipeline.contracts.parts import CONFIDENCE, Clusters
from pipeline.significance.methods import clusters
from pipeline.significance.methods.alike_periods import allowed, factor
from pipeline.significance.methods.few_clusters import LEAST, refused, refused_pooled
from pipeline.significance.methods.kitagawa import jackknifed
from pipeline.significance.methods.ratio import Bools, Estimate, Floats, Sums

if TYPE_CHECKING:
    from pipeline.config.views import Scale
    from pipeline.contracts.codes import Unit
    from pipeline.significance.arrays import Pair


class Errors(NamedTuple):
    """One number's estimate on both scales, by one way of leaving out."""

    logs: Estimate
    units: Estimate


class ByCluster(NamedTuple):
    """The same by whole clusters, with how many there are on each side of every cell.

    `few` says why a cell bears no such error; with `refuses` it then bears none at all.
    """

    of: ClusterOf
    errors: Errors
    a: Floats
    b: Floats
    few: list[FewClusters | None]
    refuses: bool = False


class Leveled(NamedTuple):
    """The errors that are told; what is said of their clusters, and what is refused, a cell."""

    errors: Errors
    clusters: list[Clusters | None]
    refused: list[FewClusters | None]


class Alike(NamedTuple):
    """How alike neighbouring periods are in the whole series: of two groups, and of their gap.

    Each (cells,), undefined where a cell can't tell; none where the series is too short.
    """

    first: Floats | None = None
    second: Floats | None = None
    gap: Floats | None = None


def by_period(pair: Pair, unit: Unit, alike: Floats | None = None) -> ByCluster:
    """A change between windows, by the periods of both, one spread for the two.

    `alike` (cells,) is how alike neighbouring periods are in the whole series, where that is known.
    """
    a, b = of_periods(pair)
    scales = [
        _pooled(clusters.deleted(a, log), clusters.deleted(b, log), alike) for log in (True, False)
    ]
    return ByCluster(unit, Errors(*scales), *_counts(a, b), [*refused_pooled(a, b)])


def gap_by_period(first: Pair, second: Pair, unit: Unit, alike: Floats | None = None) -> ByCluster:
    """How much more the second changed than the first; what a period does to both cancels.

    The pairs may be of other matches, and of other periods. A window in which one of them has a
    single period, which can't be left out, adds nothing to the spread.
    """
    one, two = _same_periods(first, second)
    counts = [np.array(_counts(a, b)) for a, b in zip(one, two, strict=True)]
    scales = []
    for log in (True, False):
        before, after = (
            _spread_of(clusters.minus(clusters.deleted(b, log), clusters.deleted(a, log)), count)
            for a, b, count in zip(one, two, counts, strict=True)
        )
        scales.append(_pooled(before, after, alike))
    reasons = zip(refused_pooled(*one), refused_pooled(*two), scales[0].df, strict=True)
    few: list[FewClusters | None] = [
        mine or theirs or ("few_clusters" if df < LEAST - 2 else None)
        for mine, theirs, df in reasons
    ]
    fewest = [count.min(0) for count in counts]
    return ByCluster(unit, Errors(*scales), fewest[0], fewest[1], few)


def _pooled(before: clusters.Deleted, after: clusters.Deleted, alike: Floats | None) -> Estimate:
    """One spread for both windows, and wider where neighbouring periods are alike."""
    return allowed(clusters.pooled(before, after), factor(before, after, alike))


def _spread_of(gap: clusters.Deleted, count: Floats) -> clusters.Deleted:
    """A window's gap, without a spread where one of the two has a single period; `count` (2, n)."""
    return gap._replace(df=np.where(count.min(0) > 1, gap.df, 0.0))


def part_by_period(groups: Pair, name: Literal["mix", "rates"], unit: Unit) -> ByCluster:
    """A part of a mix, whose cells are its groups: one cell, each period left out of all of it."""
    a, b = of_periods(groups)
    _, logs, units = jackknifed(a, b, name, periods=True)
    before, after = _counts(_together(a), _together(b))
    return ByCluster(unit, Errors(logs, units), before, after, few_periods(groups))


def few_periods(groups: Pair) -> list[FewClusters | None]:
    """Why the groups of a mix bear no error by periods together: of one cell."""
    return [*refused_pooled(*(_together(side) for side in of_periods(groups)))]


def _together(sums: Sums) -> Sums:
    """All cells as one."""
    y, x = (part.sum(1, keepdims=True) for part in (sums.y, sums.x))
    here: Bools = np.any(sums.here, axis=1)[:, None]
    return Sums(y, x, here)


def by_cluster(of: ClusterOf, a: Sums, b: Sums) -> ByCluster:
    """A difference of groups whose rows are the same clusters."""
    errors = Errors(clusters.change(a, b), clusters.change(a, b, log=False))
    return ByCluster(of, errors, *_counts(a, b), [*refused(a, b)], refuses=True)


def of_periods(pair: Pair) -> tuple[Sums, Sums]:
    """Both windows' totals of periods, each by its own."""
    before, after = periods_of(pair)
    return clusters.gathered(pair.a, before), clusters.gathered(pair.b, after)


def periods_of(pair: Pair) -> tuple[np.ndarray, np.ndarray]:
    """The period of each row of a pair that was made of rows with one."""
    if pair.periods is None:
        raise ValueError("rows without their periods have no error by periods")
    return pair.periods


def leveled(match: Errors, cluster: ByCluster | None, scale: Scale) -> Leveled:
    """The wider of two errors, chosen once, at 95 % on the scale that is told, and kept for both.

    Raises ValueError where the two are not of the same numbers.
    """
    count = len(match.logs.value)
    if cluster is None:
        return Leveled(match, [None] * count, [None] * count)
    fits: Bools = np.array([reason is None for reason in cluster.few], bool)
    share = scale.kind == "share"
    at_match, at_cluster = (each.units if share else each.logs for each in (match, cluster.errors))
    offered = _where(fits, at_cluster, at_match)
    wider = clusters.wider(at_match, offered, CONFIDENCE).by_cluster & (match.logs.se > 0)
    logs, units = (
        _where(wider, theirs, mine) for mine, theirs in zip(match, cluster.errors, strict=True)
    )
    errors = Errors(logs, units)
    refusals = [reason if cluster.refuses else None for reason in cluster.few]
    return Leveled(errors, _clusters(match, cluster, wider, scale), refusals)


def _clusters(
    match: Errors, cluster: ByCluster, wider: Bools, scale: Scale
) -> list[Clusters | None]:
    """What is told of each cell's clusters; none of a cell that has no error by matches."""
    share = scale.kind == "share"
    told, per = (match.units, scale.per) if share else (match.logs, 1.0)
    p = told.p_value()
    return [
        Clusters(
            of=cluster.of,
            a=int(cluster.a[cell]),
            b=int(cluster.b[cell]),
            wider=bool(wider[cell]),
            se_match=float(told.se[cell] * per),
            df_match=float(told.df[cell]),
            p_match=float(p[cell]),
            few=few,
        )
        if np.isfinite(told.se[cell]) and np.isfinite(p[cell])
        else None
        for cell, few in enumerate(cluster.few)
    ]


def _where(chosen: Bools, one: Estimate, other: Estimate) -> Estimate:
    """The error of `one` where it is chosen; the value is the same."""
    se, df = (np.where(chosen, getattr(one, name), getattr(other, name)) for name in ("se", "df"))
    return Estimate(other.value, se, df)


def _counts(a: Sums, b: Sums) -> tuple[Floats, Floats]:
    """How many clusters each cell has on either side."""
    first, second = a.here.sum(0), b.here.sum(0)
    return first.astype(float), second.astype(float)


def _same_periods(first: Pair, second: Pair) -> tuple[tuple[Sums, Sums], tuple[Sums, Sums]]:
    """Both pairs' windows, each by the periods of either."""
    (a, b), (c, d) = periods_of(first), periods_of(second)
    before = clusters.aligned(first.a, a, second.a, c)
    after = clusters.aligned(first.b, b, second.b, d)
    return (before[0], after[0]), (before[1], after[1])
