"""The robustness check beside every t test: whole matches shuffled, statistics studentised.

Chung & Romano 2013. p is (hits + 1) / (draws + 1), never zero; deterministic for a generator. All
cells of a call are shuffled alike and at once: each statistic is made of sums over matches, and the
sums of every draw are one matrix product.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pipeline.significance.methods.ratio import Bools, Floats, Sums

Labels = NDArray[Any]  # one a match, equal inside a block
Moments = list[Floats]  # each (matches or draws, cells)


def permute_windows(
    a: Sums, b: Sums, blocks: Labels, draws: int, rng: np.random.Generator
) -> Floats:
    """p of a change between two windows: a match keeps its totals and changes side in its block.

    `blocks` labels the rows of a, then of b.
    """
    moments = [np.concatenate(pair) for pair in zip(_own(a), _own(b), strict=True)]
    return _between_windows(moments, len(a.y), blocks, _single, draws, rng)


def permute_gap(
    before: tuple[Sums, Sums],
    after: tuple[Sums, Sums],
    blocks: Labels,
    draws: int,
    rng: np.random.Generator,
) -> Floats:
    """The same for a difference of two changes; each window is (first group, second group)."""
    moments = [np.concatenate(pair) for pair in zip(_joint(*before), _joint(*after), strict=True)]
    return _between_windows(moments, len(before[0].y), blocks, _paired, draws, rng)


def permute_within(a: Sums, b: Sums, draws: int, rng: np.random.Generator) -> Floats:
    """p of a gap between two groups that share matches: each match swaps its two groups or not."""
    own, swapped = _joint(a, b), _joint(b, a)
    swaps = (rng.random((draws, len(a.y))) < 0.5).astype(float)
    totals = [moment.sum(0, keepdims=True) for moment in own]
    drawn = [
        total + swaps @ (other - moment)
        for total, moment, other in zip(totals, own, swapped, strict=True)
    ]
    return _p(_studentised(*_paired(totals)), _studentised(*_paired(drawn)))


def _between_windows(
    moments: Moments,
    before: int,
    blocks: Labels,
    statistic: Callable[[Moments], tuple[Floats, Floats]],
    draws: int,
    rng: np.random.Generator,
) -> Floats:
    side = np.repeat([False, True], [before, len(moments[0]) - before])
    weights = np.vstack([side, _shuffled(side, blocks, draws, rng)]).astype(float)
    totals = [moment.sum(0) for moment in moments]
    later = [weights @ moment for moment in moments]
    earlier = [total - part for total, part in zip(totals, later, strict=True)]
    (effect_b, variance_b), (effect_a, variance_a) = statistic(later), statistic(earlier)
    drawn = _studentised(effect_b - effect_a, variance_a + variance_b)
    return _p(drawn[:1], drawn[1:])


def _shuffled(side: Bools, blocks: Labels, draws: int, rng: np.random.Generator) -> Bools:
    """The sides dealt out anew inside each block, a row a draw; all draws of a block at once."""
    dealt = np.tile(side, (draws, 1))
    _, block = np.unique(blocks, return_inverse=True)
    order = np.argsort(block, kind="stable")
    for mine in np.split(order, np.flatnonzero(np.diff(block[order])) + 1):
        if side[mine].any() and not side[mine].all():
            dealt[:, mine] = rng.permuted(dealt[:, mine], axis=1)
    return dealt


def _own(sums: Sums) -> Moments:
    """What the log of one ratio and its linearised variance are made of."""
    y, x = sums.y, sums.x
    return [y, x, y * y, y * x, x * x, sums.here.astype(float)]


def _joint(a: Sums, b: Sums) -> Moments:
    """The same of two groups of the same matches, and of how they go together."""
    cross = [a.y * b.y, a.y * b.x, a.x * b.y, a.x * b.x]
    return [*_own(a)[:5], *_own(b)[:5], *cross, (a.here | b.here).astype(float)]


def _single(sums: Moments) -> tuple[Floats, Floats]:
    """(log ratio, its variance) of each draw and cell."""
    y, x, yy, yx, xx, count = sums
    with np.errstate(divide="ignore", invalid="ignore"):
        r = y / x
        return np.log(r), count / (count - 1) * (yy - 2 * r * yx + r * r * xx) / y**2


def _paired(sums: Moments) -> tuple[Floats, Floats]:
    """(log of the second group's ratio over the first's, its variance) of each draw and cell."""
    ya, xa, yya, yxa, xxa, yb, xb, yyb, yxb, xxb, yy, yx, xy, xx, count = sums
    with np.errstate(divide="ignore", invalid="ignore"):
        ra, rb = ya / xa, yb / xb
        own = (yya - 2 * ra * yxa + ra * ra * xxa) / ya**2
        own = own + (yyb - 2 * rb * yxb + rb * rb * xxb) / yb**2
        both = (yy - rb * yx - ra * xy + ra * rb * xx) / (ya * yb)
        return np.log(rb / ra), count / (count - 1) * (own - 2 * both)


def _studentised(effect: Floats, variance: Floats) -> Floats:
    with np.errstate(divide="ignore", invalid="ignore"):
        found = effect / np.sqrt(variance)
    told: Floats = np.nan_to_num(found, nan=0.0, posinf=0.0, neginf=0.0)
    return told


def _p(observed: Floats, drawn: Floats) -> Floats:
    hits = (np.abs(drawn) >= np.abs(observed[0]) * (1 - 1e-9)).sum(0)
    p: Floats = (hits + 1) / (len(drawn) + 1)
    return p
