"""Which confidence an interval needs so that it never says more or less than its verdict.

A number that is picked out of many for what its interval leaves out has that interval widened:
headlines to their step of Holm's (1979), rows to the share of the looks that were picked, which
bounds the false coverage rate (Benjamini & Yekutieli 2005, J. Am. Stat. Assoc. 100). All are error
rates: 0.01 stands for an interval of 99 %.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pipeline.significance.methods.ratio import Bools, Floats


class Asked(NamedTuple):
    """At which error rate a claim is made, a value a look, and whether it may be made."""

    rate: Floats
    made: Bools

    def of_first(self, count: int) -> Asked:
        """Those of the first looks alone; the others were there to be counted."""
        return Asked(self.rate[:count], self.made[:count])


class Printed(NamedTuple):
    """The error rate of each look's printed interval, and the claims that it carries."""

    rate: Floats
    moved: Bools
    inside: Bools


def holm_steps(p: Floats, alpha: float) -> Asked:
    """Each claim at its own step; those after the first that fails share that step's rate.

    Claims with the same p share the first of their steps: which of them came first says nothing.
    """
    order, count = np.argsort(p, kind="stable"), len(p)
    ranked = p[order]
    steps = alpha / (count - np.searchsorted(ranked, ranked))
    passed = np.logical_and.accumulate(ranked < steps)
    steps[~passed] = steps[passed.sum()] if not passed.all() else alpha
    rate, made = np.empty(count), np.empty(count, bool)
    rate[order], made[order] = steps, passed
    return Asked(rate, made)


def picked_share(p: Floats, rate: float, alpha: float) -> Asked:
    """All at the share that is picked by Benjamini and Hochberg at `rate`, never above alpha."""
    count = len(p)
    steps = np.minimum(np.arange(1, count + 1) * rate / max(count, 1), alpha)
    passed = np.flatnonzero(np.sort(p) < steps)
    at = steps[passed[-1]] if len(passed) else min(rate / max(count, 1), alpha)
    return Asked(np.full(count, at), p < at)


def of_change(p: Floats, change: Asked, alpha: float) -> Floats:
    """The error rate of each interval where no margin is asked of.

    That of its change's claim, whether it is made or lost among so many; else alpha. `p` is the
    smallest rate whose interval leaves no change out.
    """
    return np.where(change.made | (p < alpha), change.rate, alpha)


def printed(p: Floats, p_inside: Floats, change: Asked, inside: Asked, alpha: float) -> Printed:
    """The interval of each look: its claim's own, or the plain one of 1 - alpha.

    `p_inside` is the smallest rate whose interval lies inside the margin. Where that may not be
    said and the interval would, it is widened to the rate of that claim; that of a change which may
    be told only as far as it still leaves none out, if it can leave the margin so.
    """
    held = inside.made & ~change.made
    rate = np.where(held, inside.rate, of_change(p, change, alpha))
    lost = ~inside.made & (p_inside < rate)
    rate[lost] = np.minimum(rate, inside.rate)[lost]
    told = lost & change.made & (p < p_inside)
    rate[told] = np.maximum(rate, np.sqrt(p * p_inside))[told]
    return Printed(rate, change.made & (p < rate), p_inside < rate)
