"""All cells of one measure of one beat compared at once: two windows, or two groups."""

from __future__ import annotations

from typing import Any

import numpy as np

from pipeline.significance.arrays import Pair
from pipeline.significance.effects import Numbers, describe, finding_of, numbers_of
from pipeline.significance.methods import inference
from pipeline.significance.methods.permutation import permute_windows, permute_within
from pipeline.significance.methods.ratio import change, change_within
from pipeline.significance.notes import notes_on

SEED = 1  # of the robustness check only; no headline number depends on it


def compare(pair: Pair, measure: dict[str, Any], statistics: dict[str, Any]) -> list[dict]:
    """One dict a cell: both sides, the change in units and in per cent, p, margin, notes."""
    least = statistics["least_matches"]
    sides = [
        describe(sums, balls, measure, least)
        for sums, balls in ((pair.a, pair.ball_a), (pair.b, pair.ball_b))
    ]
    step = change_within if pair.shared else change
    with np.errstate(all="ignore"):
        logs, units = step(pair.a, pair.b), step(pair.a, pair.b, log=False)
        numbers = numbers_of(logs, units, measure, _permuted(pair, statistics["permutations"]))
        if measure.get("by_match"):
            numbers |= _of_matches(pair, measure)
    found = [
        finding_of(cell, a, b, numbers, measure)
        for cell, (a, b) in enumerate(zip(*sides, strict=True))
    ]
    return [{**finding, "notes": notes_on(finding, measure, statistics)} for finding in found]


def _permuted(pair: Pair, draws: int) -> np.ndarray:
    rng = np.random.default_rng(SEED)
    if pair.shared:
        return permute_within(pair.a, pair.b, draws, rng)
    return permute_windows(pair.a, pair.b, pair.blocks, draws, rng)


def _of_matches(pair: Pair, measure: dict[str, Any]) -> Numbers:
    """A proportion of whole matches: Newcombe's interval, the N - 1 chi-squared test.

    Held is asked of the same interval: the confidence at which it just fits inside the margin.
    """
    counts = [part.sum(0) for part in (pair.b.y, pair.b.x, pair.a.y, pair.a.x)]
    low, high = inference.newcombe(*counts)
    p = inference.two_proportions(*counts)
    edge = measure["margin"]["size"] / measure["per"]
    per = measure["per"]
    return {
        "difference_low": low * per,
        "difference_high": high * per,
        "p": p,
        "p_equal": inference.newcombe_equal(*counts, edge),
    }
