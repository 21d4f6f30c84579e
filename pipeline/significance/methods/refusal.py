"""When no interval is honest: each cell's reason, or none."""

from __future__ import annotations

import numpy as np

from pipeline.contracts.codes import Refusal
from pipeline.significance.methods.ratio import Floats, Sums, delete_one, effective_matches

# In the order in which they are tried; the words for them are the brief's.
REASONS: tuple[Refusal, ...] = (
    "no_balls",
    "few_matches",
    "none_counted",
    "one_match_holds_all",
    "few_effective",
)


def refusals(
    sums: Sums, least: int, sizes: Floats | None = None, by_match: bool = False
) -> list[Refusal | None]:
    """A code for each cell that can't carry an interval, None for those that can.

    `sizes` are what matches are weighed by (their denominators, when None).
    A proportion of matches (`by_match`) can be none or all of them; a ratio of sums can't.
    """
    matches = sums.here.sum(0)
    y, x = sums.y.sum(0), sums.x.sum(0)
    without = delete_one(sums)
    with np.errstate(invalid="ignore"):
        undefined = np.any(sums.here & ~(np.isfinite(without) & (without > 0)), axis=0)
        uneven = effective_matches(sums.x if sizes is None else sizes) < least
    none = x <= 0 if by_match else (y <= 0) | (x <= 0)
    undefined, uneven = (test & (not by_match) for test in (undefined, uneven))
    tests = (matches == 0, matches < least, none, undefined, uneven)
    return [
        next((reason for reason, test in zip(REASONS, tests, strict=True) if test[cell]), None)
        for cell in range(len(matches))
    ]
