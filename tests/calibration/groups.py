"""Two groups that are made of grounds, batters, bowlers or sides, which differ anyway."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from pipeline.significance.arrays import Pair
from pipeline.significance.level import by_cluster
from pipeline.significance.methods import clusters
from pipeline.significance.methods.ratio import Sums
from tests.calibration import worlds
from tests.calibration.base import Row
from tests.calibration.levels import compared, told
from tests.calibration.worlds import Clustered

MATCHES = 100  # of each group
Group = tuple[int, int]  # the first of its members, and the one after its last


def grounds(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Groups of grounds: every match at one of them."""
    sims = min(sims, 5000)
    for name, sizes in (
        ("four grounds a side", ([40] * 4, [40] * 4)),
        ("four uneven grounds a side", ([80, 40, 20, 20], [70, 30, 30, 30])),
        ("eight grounds a side", ([20] * 8, [20] * 8)),
    ):
        sides = [worlds.played(rng, each, rng.normal(0, 0.02, (len(each), sims))) for each in sizes]
        labels = [side.labels + at * 100 for at, side in enumerate(sides)]
        both = clusters.aligned(sides[0].sums, labels[0], sides[1].sums, labels[1])
        by = by_cluster("ground", *both)
        found = compared(worlds.between(*sides), lambda _, by=by: by)
        yield from told(f"no difference, {name}, spread 2%", found, 0.02)


def members(rng: np.random.Generator, sims: int) -> Iterator[Row]:
    """Groups of batters or bowlers in the same matches; groups of sides, each in its own."""
    sims = min(sims, 4000)
    for of, names, counts, spread in (
        ("batter", "batters", (12, 30), 0.06),
        ("bowler", "bowlers", (10, 14), 0.05),
        ("side", "sides", (5, 5), 0.04),
    ):
        shared = of != "side"
        faced = (_in_any_match if shared else _in_pairs)(rng, counts, sims)
        y, x = _scored(rng, faced, spread)
        pair = _by_match(y, x, counts[0], shared)
        by = by_cluster(of, *(_by_member(y, x, group) for group in _both(counts)))
        scenario = f"no difference, {counts[0]} {names} against {counts[1]}, spread {spread:.0%}"
        yield from told(scenario, compared(pair, lambda _, by=by: by), spread)


def _both(counts: tuple[int, int]) -> tuple[Group, Group]:
    return (0, counts[0]), (counts[0], sum(counts))


def _in_any_match(rng: np.random.Generator, counts: tuple[int, int], sims: int) -> np.ndarray:
    """(matches, members, sims) balls: a third of all of them has two to ten overs in each."""
    shape = (MATCHES, sum(counts), sims)
    return rng.integers(12, 60, shape) * (rng.random(shape) < 1 / 3)


def _in_pairs(rng: np.random.Generator, counts: tuple[int, int], sims: int) -> np.ndarray:
    """The same of an innings to each of two sides of one group, everybody against everybody."""
    playing = np.zeros((2 * MATCHES, sum(counts), 1), bool)
    for at, (first, end) in enumerate(_both(counts)):
        met = list(combinations(range(first, end), 2))
        for match in range(MATCHES):
            playing[at * MATCHES + match, met[match % len(met)]] = True
    return rng.integers(200, 320, (*playing.shape[:2], sims)) * playing


def _scored(
    rng: np.random.Generator, faced: np.ndarray, spread: float
) -> tuple[np.ndarray, np.ndarray]:
    """(runs, balls) of each: the match, the member and the balls have their luck."""
    matches, count, sims = faced.shape
    of_member = rng.normal(0, spread, (1, count, sims))
    of_match = rng.normal(0, worlds.MATCH_SD, (matches, 1, sims))
    luck = rng.normal(0, 1, faced.shape) * np.sqrt(2.4 / (worlds.MEAN * np.maximum(faced, 1)))
    return faced * worlds.MEAN * np.exp(of_member + of_match + luck), faced.astype(float)


def _by_match(y: np.ndarray, x: np.ndarray, first: int, shared: bool) -> Pair:
    """Both groups' totals of matches: the same matches, or half of them each."""
    sides = []
    for at, (start, end) in enumerate(((0, first), (first, x.shape[1]))):
        rows = slice(None) if shared else slice(at * MATCHES, (at + 1) * MATCHES)
        total = [part[rows, start:end].sum(1) for part in (y, x)]
        sides.append(Clustered(Sums(*total, total[1] > 0), np.arange(len(total[1]))))
    return worlds.between(*sides, shared=shared)


def _by_member(y: np.ndarray, x: np.ndarray, group: Group) -> Sums:
    """A group's totals by member, with empty rows for the other group's."""
    mine = np.zeros((x.shape[1], 1), bool)
    mine[slice(*group)] = True
    total = [np.where(mine, part.sum(0), 0.0) for part in (y, x)]
    return Sums(*total, total[1] > 0)
