"""How much of a change is because who did what changed, and how much is the rates themselves.

The split after Kitagawa (1955) and Das Gupta (1993): mix and rate parts add up to the change
exactly and change sign with the windows. The mix can itself be an effect of the event.

Arrays of totals have the groups as their last axis; axes before it are kept.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from pipeline.significance.methods.alike_periods import allowed, factor
from pipeline.significance.methods.clusters import Deleted, pooled, replicated
from pipeline.significance.methods.ratio import (
    Bools,
    Estimate,
    Floats,
    Sums,
    jackknife_variance,
    welch,
)

ALIKE = 1e-9  # of a share: less is rounding
Totals = tuple[Floats, Floats, Floats, Floats]  # y and x of a, then of b


class Ends(NamedTuple):
    """The whole as it would stand in each window with one part at the mean of both windows."""

    before: Floats
    after: Floats


def ends(totals: Totals, name: str) -> Ends:
    """For 'mix', both windows' mixes at the mean rates; for 'rates', both windows' rates at the
    mean mix (the same-mix numbers: direct standardisation to the mean of the two mixes).

    A group that bowled nothing in one window has no rate there: it is given its rate in the other,
    so that all it adds is mix. One with nothing in either window adds nothing.
    """
    y_a, x_a, y_b, x_b = totals
    with np.errstate(divide="ignore", invalid="ignore"):
        rate_a, rate_b = y_a / x_a, y_b / x_b
        share_a, share_b = (x / x.sum(-1, keepdims=True) for x in (x_a, x_b))
    rate_a, rate_b = given(rate_a, x_a, rate_b), given(rate_b, x_b, rate_a)
    if name == "mix":
        rates = (rate_a + rate_b) / 2
        return Ends(standardised(rates, share_a), standardised(rates, share_b))
    shares = (share_a + share_b) / 2
    return Ends(standardised(rate_a, shares), standardised(rate_b, shares))


def given(own: Floats, weight: Floats, other: Floats) -> Floats:
    """A group's rates: its own, else those of the other window; nought of neither."""
    rates = np.where(weight > 0, own, other)
    return np.where(np.isfinite(rates), rates, 0.0)


def standardised(rates: Floats, weights: Floats) -> Floats:
    """The rates at a mix of these weights (direct standardisation; Fleiss 1981, ch. 14)."""
    whole: Floats = (rates * weights).sum(-1) / weights.sum(-1)
    return whole


def totals_of(a: Sums, b: Sums) -> Totals:
    """Totals by group of two windows; columns are the groups."""
    return a.y.sum(0), a.x.sum(0), b.y.sum(0), b.x.sum(0)


def same_mix(a: Sums, b: Sums) -> bool:
    """Whether every group had the same share in every match of both windows."""
    x = np.concatenate([a.x, b.x])
    total = x.sum(1, keepdims=True)
    shares = (x / np.where(total > 0, total, 1))[total[:, 0] > 0]
    return bool(np.ptp(shares, axis=0).max() < ALIKE) if len(shares) else True


def jackknifed(
    a: Sums, b: Sums, name: str, periods: bool = False
) -> tuple[Ends, Estimate, Estimate]:
    """(a part's two ends, its change on the log scale, its change in units).

    Errors by leaving each match of either window out of the whole split; with `periods` the rows
    are periods, and have one spread for both windows.
    """
    totals = totals_of(a, b)
    found = ends(totals, name)
    without_a = ends((totals[0] - a.y, totals[1] - a.x, *totals[2:]), name)
    without_b = ends((*totals[:2], totals[2] - b.y, totals[3] - b.x), name)
    scales = []
    for scale in (np.log, np.asarray):
        halves = [
            (_moved(without, scale), window) for without, window in ((without_a, a), (without_b, b))
        ]
        scales.append(left_out(_moved(found, scale), halves, periods))
    return found, scales[0], scales[1]


def _moved(found: Ends, scale: Callable[[Floats], Floats]) -> Floats:
    return scale(found.after) - scale(found.before)


def left_out(value: Floats, halves: list[tuple[Floats, Sums]], periods: bool = False) -> Estimate:
    """A part's value, with what leaving out the matches (or periods) of each window makes of it."""
    if periods:
        before, after = (_periods(replicates, window) for replicates, window in halves)
        spread = allowed(pooled(before, after), factor(before, after))
    else:
        spread = welch(*(_half(replicates, window) for replicates, window in halves))
    return Estimate(np.atleast_1d(value), spread.se, spread.df)


def _periods(replicates: Floats, window: Sums) -> Deleted:
    """What leaving out each period of one window does."""
    here: Bools = np.any(window.here, axis=1)[:, None]
    sizes = window.x.sum(1, keepdims=True)
    return replicated(np.zeros(1), replicates[:, None], here, sizes)


def _half(replicates: Floats, window: Sums) -> Estimate:
    """What one window's matches add to the variance."""
    here: Bools = np.any(window.here, axis=1)[:, None]
    variance = jackknife_variance(replicates[:, None], here)
    return Estimate(np.zeros(1), np.sqrt(variance), here.sum(0) - 1.0)
