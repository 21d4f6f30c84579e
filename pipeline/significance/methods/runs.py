"""Runs of an outcome: how many came, and how many its rate alone would make.

A run is as long as it lasts: from a success that follows no success to the last one before a
failure, or before the end. "Six or more in a row" counts it once, whether it is of six or of
sixteen; a run of twelve is not two of six.

What is expected is exact: the k successes of a sequence of n are taken as given, and every order
of them as equally likely. Nothing is estimated, so the counts that come, less those expected, are
nought on average over sequences whose order is luck, whatever the rate of each. It allows for
the rate of each sequence and for its length, and for nothing else. The outcomes of an innings are
not in such an order even when no ball leans on the one before: phases, bowlers and batters with
other rates gather them. Some of what is above the expected comes from that alone, and more of it
when those rates move apart, so that a change of the ratio over whole innings need not be a change
in how one ball follows another. The same count within one phase is free of the phases' part.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike


def count_runs(successes: ArrayLike, least: int) -> int:
    """The runs of at least `least` successes in one sequence of true and false, in its order."""
    _check_least(least)
    padded = np.concatenate([[False], np.asarray(successes, bool), [False]]).astype(np.int8)
    steps = np.diff(padded)
    lengths = np.flatnonzero(steps == -1) - np.flatnonzero(steps == 1)
    return int((lengths >= least).sum())


def expected_runs(trials: ArrayLike, successes: ArrayLike, least: int) -> np.ndarray:
    """The mean number of such runs over all orders of k successes among n trials.

    (n - k + 1) [k]_r / [n]_r with r = `least` and falling factorials [k]_r = k (k-1) ... (k-r+1):
    [k]_r / [n]_r is the chance that r given places in a row all hold successes; a run of r or more
    can begin at the first place, or behind one of n - k failures. (Mood 1940, Annals of
    Mathematical Statistics 11:367-392, has the mean of runs of each length, of which this is the
    sum.) The factors k - i over n - i are at most one each, so nothing overflows.

    `trials` (n) and `successes` (k) are counts, arrays of one shape or that broadcast; so is the
    answer, in runs a sequence, nought where k < r. It rises with k only until (k + 1) / (n - k + 1)
    is r: from there on more successes join runs together. Raises ValueError for k beyond n or below
    nought, or r below one.
    """
    _check_least(least)
    n, k = np.broadcast_arrays(np.asarray(trials, float), np.asarray(successes, float))
    if ((k < 0) | (k > n)).any():
        raise ValueError("there are between none and as many successes as trials")
    enough = k >= least
    gone = np.arange(least)
    left = np.where(enough, n, least)[..., None] - gone
    chance = (np.maximum(k[..., None] - gone, 0) / left).prod(-1)
    expected: np.ndarray = (n - k + 1) * chance
    return expected


def _check_least(least: int) -> None:
    if least < 1:
        raise ValueError("a run has at least one success")
