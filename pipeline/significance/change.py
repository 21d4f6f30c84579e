"""All cells of one measure of one beat compared at once: two windows, or two groups."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from pipeline.contracts.parts import CONFIDENCE, GroupChange, Side
from pipeline.significance.arrays import Pair
from pipeline.significance.effects import Compared, Numbers, compared, describe, numbers_of
from pipeline.significance.level import ByCluster, Errors, leveled
from pipeline.significance.methods import inference
from pipeline.significance.methods.permutation import permute_windows, permute_within
from pipeline.significance.methods.ratio import Floats, change, change_within
from pipeline.significance.notes import notes_on

if TYPE_CHECKING:
    from pipeline.config.project import Statistics
    from pipeline.config.views import Scale

SEED = 1  # of the robustness check only; no headline number depends on it


def compare(
    pair: Pair,
    scale: Scale,
    statistics: Statistics,
    by: Callable[[Pair], ByCluster] | None = None,
    shuffled: bool = True,
) -> list[Compared[Side]]:
    """One comparison a cell: both sides, the change in units and in per cent, p, margin, notes.

    `by` makes the errors of the level that the question is asked at; without it they are of
    matches, as those of shares of whole matches always are. Matches are not `shuffled` where the
    check beside the t test is not asked for.
    """
    least = statistics.least_matches
    sides = [
        describe(sums, balls, scale, least)
        for sums, balls in ((pair.a, pair.ball_a), (pair.b, pair.ball_b))
    ]
    step = change_within if pair.shared else change
    with np.errstate(all="ignore"):
        match = Errors(step(pair.a, pair.b), step(pair.a, pair.b, log=False))
        level = leveled(match, by(pair) if by and not scale.by_match else None, scale)
        checked = _permuted(pair, statistics.permutations) if shuffled else None
        numbers = numbers_of(*level.errors, scale, checked)
        if scale.by_match:
            numbers |= _of_matches(pair, scale)
    found = [
        compared(cell, a, b, numbers, scale, "newcombe" if scale.by_match else "t", level)
        for cell, (a, b) in enumerate(zip(*sides, strict=True))
    ]
    return [
        Compared(one.a, one.b, one.refused, one.effect, notes_on(one, scale, statistics))
        for one in found
    ]


def group_change(one: Compared[Side]) -> GroupChange:
    """One group's change as a side of a gap; counts are those of its thinner window."""
    a, b = one.a, one.b
    return GroupChange(
        difference=one.effect.difference if one.effect else None,
        change=one.effect.relative if one.effect else None,
        matches=min(a.matches, b.matches),
        balls=min(a.balls, b.balls),
        numerator=min(a.numerator, b.numerator),
        denominator=min(a.denominator, b.denominator),
        largest=max(a.largest, b.largest),
        refused=one.refused,
    )


def _permuted(pair: Pair, draws: int) -> Floats:
    rng = np.random.default_rng(SEED)
    if pair.shared:
        return permute_within(pair.a, pair.b, draws, rng)
    return permute_windows(pair.a, pair.b, pair.blocks, draws, rng)


def _of_matches(pair: Pair, scale: Scale) -> Numbers:
    """A proportion of whole matches: Newcombe's interval.

    Both questions are asked of it: the confidence at which it just leaves no difference out, and at
    which it just fits inside the margin.
    """
    a, b = pair.a, pair.b
    counts = b.y.sum(0), b.x.sum(0), a.y.sum(0), a.x.sum(0)
    low, high = inference.newcombe(*counts)
    edge = scale.margin.size / scale.per
    df = a.x.sum(0) + b.x.sum(0) - 2  # of what could have been seen: the jackknife's is lost where
    se = np.nan_to_num(change(a, b, log=False).se) * scale.per  # a window has won all or none
    return {
        "se": se,
        "df_units": df,
        "detectable_difference": inference.detectable(se, df, 1 - CONFIDENCE),
        "difference_low": low * scale.per,
        "difference_high": high * scale.per,
        "p": inference.newcombe_differ(*counts),
        "p_equal": inference.newcombe_equal(*counts, edge),
    }
