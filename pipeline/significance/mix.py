"""How much of a change is because who did what changed, and how much is the rates themselves.

The split after Kitagawa (1955) and Das Gupta (1993): mix and rate parts add up to the change
exactly and change sign with the windows. The mix can itself be an effect of the event.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pipeline.significance.ratio import Sums, jackknife_variance

LEAST_SHARE = 0.05  # of the balls, for a group to bear on the Simpson flag


class Split(NamedTuple):
    """Parts of the change of one ratio (in its units), their standard errors, and more.

    `same_mix_a` and `same_mix_b` are the ratios at the pooled mix of both windows. `simpson` is
    set when the whole moved another way than every group of some size, or when the mix part is
    larger than the whole change.
    """

    mix: float
    mix_se: float
    rate: float
    rate_se: float
    same_mix_a: float
    same_mix_b: float
    simpson: bool


def parts(
    y_a: np.ndarray, x_a: np.ndarray, y_b: np.ndarray, x_b: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """(mix, rate) of totals by group; the last axis is the groups, any axes before it are kept.

    A group that bowled nothing in one window has no rate there: it is given its rate in the other,
    so that all it adds is mix. Raises ValueError for a group with nothing in both.
    """
    if ((x_a + x_b) == 0).any():
        raise ValueError("a group has nothing in either window")
    with np.errstate(divide="ignore", invalid="ignore"):
        rate_a, rate_b = y_a / x_a, y_b / x_b
    rate_a, rate_b = np.where(x_a > 0, rate_a, rate_b), np.where(x_b > 0, rate_b, rate_a)
    share_a, share_b = (x / x.sum(-1, keepdims=True) for x in (x_a, x_b))
    mix = ((share_b - share_a) * (rate_a + rate_b) / 2).sum(-1)
    rate = ((rate_b - rate_a) * (share_a + share_b) / 2).sum(-1)
    return mix, rate


def mix_split(a: Sums, b: Sums) -> Split:
    """The split of the change from window a to window b; columns are the groups.

    Standard errors by the jackknife of the whole split over the matches of each window.
    """
    totals = [part.sum(0) for part in (a.y, a.x, b.y, b.x)]
    mix, rate = parts(*totals)
    without_a = parts(totals[0] - a.y, totals[1] - a.x, *totals[2:])
    without_b = parts(*totals[:2], totals[2] - b.y, totals[3] - b.x)
    errors = [
        float(np.sqrt(_variance(of_a, a) + _variance(of_b, b)))
        for of_a, of_b in zip(without_a, without_b, strict=True)
    ]
    pooled = totals[1] + totals[3]
    rates = [_rates(totals[0], totals[1]), _rates(totals[2], totals[3])]
    same = [float(np.nansum(r * pooled) / pooled.sum()) for r in rates]
    change = float(mix + rate)
    simpson = _simpson(change, float(mix), rates[1] - rates[0], pooled)
    return Split(float(mix), errors[0], float(rate), errors[1], *same, simpson)


def _rates(y: np.ndarray, x: np.ndarray) -> np.ndarray:
    with np.errstate(divide="ignore", invalid="ignore"):
        return y / x


def _variance(replicates: np.ndarray, window: Sums) -> float:
    here = window.here.any(1)
    return float(jackknife_variance(replicates[:, None], here[:, None])[0])


def _simpson(change: float, mix: float, moves: np.ndarray, pooled: np.ndarray) -> bool:
    large = moves[pooled >= LEAST_SHARE * pooled.sum()]
    against = bool(len(large)) and bool((np.sign(large) == -np.sign(change)).all())
    return against or abs(mix) > abs(change)
