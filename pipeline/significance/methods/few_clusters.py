"""When clusters bear no error: each cell's reason, or none.

The jackknife of `clusters.py` with t holds its level from four clusters a side up, as long as they
are not too uneven (own simulations, tests/test_clusters.py).
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from pipeline.significance.methods.ratio import Bools, Floats, Sums, delete_one, effective_matches

LEAST = 4  # clusters a side, or periods of both windows together
LEAST_WORTH = 2.0  # equal clusters that the unequal ones of a side are worth
Few = Literal["few_clusters", "one_cluster_holds_all", "uneven_clusters"]
REASONS: tuple[Few, ...] = ("few_clusters", "one_cluster_holds_all", "uneven_clusters")  # in order


def fewest(*sides: Sums) -> Floats:
    """The number of clusters of each cell, on the side that has fewest."""
    count: Floats = np.min([side.here.sum(0) for side in sides], axis=0)
    return count


def refused(*sides: Sums) -> list[Few | None]:
    """Why a cell's sides bear no error by clusters, or None.

    Fewer than four on a side; a cluster without which nothing is left to take the log of; or
    clusters so uneven that they are worth fewer than two: with three matches in four at one of
    four grounds a 5 % test calls 10 %, and down to that no more than 8 % beside the matches' own.
    """
    with np.errstate(invalid="ignore"):
        uneven = np.min([effective_matches(side.x) for side in sides], axis=0) < LEAST_WORTH
    return _first(fewest(*sides) < LEAST, _hold_all(sides), uneven)


def refused_pooled(*sides: Sums) -> list[Few | None]:
    """The same of `pooled`: four periods in all, at least one in each window, as uneven as may be.

    A period that is alone in its window is not left out of it, so it may hold all of it.
    """
    count = np.array([side.here.sum(0) for side in sides])
    few = (count.sum(0) < LEAST) | (count.min(0) < 1)
    return _first(few, _hold_all(sides), np.zeros_like(few))


def _hold_all(sides: tuple[Sums, ...]) -> Bools:
    """Where a side, or a side without one of its clusters, has no finite log.

    A cluster that is alone on its side can't be left out of it, and is passed over.
    """
    found = []
    for side in sides:
        without, count = delete_one(side), side.here.sum(0)
        with np.errstate(invalid="ignore"):
            empty = side.here & ~(np.isfinite(without) & (without > 0))
        nothing = (side.y.sum(0) <= 0) | (side.x.sum(0) <= 0)
        found.append(nothing | (empty.any(0) & (count > 1)))
    holds: Bools = np.any(found, axis=0)
    return holds


def _first(*tests: Bools) -> list[Few | None]:
    return [
        next((reason for reason, test in zip(REASONS, tests, strict=True) if test[cell]), None)
        for cell in range(len(tests[0]))
    ]
