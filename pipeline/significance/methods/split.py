"""A change of a ratio split in two where what is shared out need not be its denominator.

Runs a wicket are runs a ball over wickets a ball: who bowled how much is a share of the balls, and
shares of the wickets would be taken for it. With s the groups' shares of the weight (the balls), n
and d the numerator and denominator of each for a unit of it, the ratio is R(s; n, d) = sum(s n) /
sum(s d). The part of the mix is what the shares change of R, at the mean of both windows' n and d
taken one after the other (Das Gupta 1993, two factors); the part of the rates what n and d change,
at the mean of both windows' shares; together they are the whole. Where the weight is the
denominator these are Kitagawa's two parts.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from scipy.special import stdtrit

from pipeline.significance.methods.fieller import Shared, share_of
from pipeline.significance.methods.kitagawa import given, left_out
from pipeline.significance.methods.ratio import Estimate, Floats, Sums

Scale = Callable[[Floats], Floats]
ROUNDING = 1e-9  # of the ratio: a part or an error below it is none


class Weighed(NamedTuple):
    """Match totals of the groups of one window, and the weight that is shared out among them."""

    sums: Sums
    weight: Floats


class Split(NamedTuple):
    """The whole change and its two parts, each with its own error.

    In the units of the ratio, or as logs; `level` is the ratio before, or one of logs.
    """

    whole: Estimate
    mix: Estimate
    rates: Estimate
    level: float

    def told(self, part: Estimate, confidence: float = 0.95) -> bool:
        """Whether it is told from none so surely, and is no rounding."""
        value, error = float(part.value[0]), float(part.se[0])
        tiny = ROUNDING * self.level
        if not np.isfinite(error) or error <= tiny or abs(value) <= tiny:
            return False
        return bool(abs(value) > stdtrit(part.df[0], 0.5 + confidence / 2) * error)

    @property
    def opposed(self) -> bool:
        """Whether whole and rates point different ways, each told from none (Simpson 1951)."""
        whole, rates = float(self.whole.value[0]), float(self.rates.value[0])
        return whole * rates < 0 and self.told(self.whole) and self.told(self.rates)

    def share(self, part: Estimate, other: Estimate) -> Shared | None:
        """What share of the whole a part is, beside the other one."""
        if not self.told(self.whole):
            return None
        mine, others, whole = (float(e.se[0]) ** 2 for e in (part, other, self.whole))
        together = (mine + whole - others) / 2  # the parts add up to the whole
        t = float(stdtrit(self.whole.df[0], 0.975))
        values = float(part.value[0]), float(self.whole.value[0])
        return share_of(*values, (mine, whole), together, t)


def split(a: Weighed, b: Weighed, *, log: bool = False, periods: bool = False) -> Split:
    """The split of the change from a to b, errors by leaving each match out of all of it.

    With `log` it is the log of the ratio that is split, by the same orders of changing. With
    `periods` the rows are periods, and have one spread for both windows.
    """
    scale: Scale = np.log if log else np.asarray
    totals = [(w.sums.y.sum(0), w.sums.x.sum(0), w.weight.sum(0)) for w in (a, b)]
    found = _parts(totals[0], totals[1], scale)
    halves = []
    for at, window in enumerate((a, b)):
        rows = (window.sums.y, window.sums.x, window.weight)
        without = tuple(total - row for total, row in zip(totals[at], rows, strict=True))
        sides = [without, totals[1]] if at == 0 else [totals[0], without]
        halves.append((_parts(sides[0], sides[1], scale), window.sums))
    whole, mix, rates = (
        left_out(value, [(replicates[at], sums) for replicates, sums in halves], periods)
        for at, value in enumerate(found)
    )
    level = 1.0 if log else float(abs(totals[0][0].sum() / totals[0][1].sum()))
    return Split(whole, mix, rates, level)


def _parts(
    a: tuple[Floats, ...], b: tuple[Floats, ...], scale: Scale
) -> tuple[Floats, Floats, Floats]:
    """(whole, mix, rates). A group without weight in one window is given its other rates there."""
    (y_a, x_a, w_a), (y_b, x_b, w_b) = a, b
    with np.errstate(divide="ignore", invalid="ignore"):
        share_a, share_b = (w / w.sum(-1, keepdims=True) for w in (w_a, w_b))
        each_a, each_b = (y_a / w_a, x_a / w_a), (y_b / w_b, x_b / w_b)
        n_a, d_a = (given(one, w_a, other) for one, other in zip(each_a, each_b, strict=True))
        n_b, d_b = (given(one, w_b, other) for one, other in zip(each_b, each_a, strict=True))
        first, last = scale(_ratio(share_a, n_a, d_a)), scale(_ratio(share_b, n_b, d_b))
        moved, bettered = scale(_ratio(share_b, n_a, d_a)), scale(_ratio(share_a, n_b, d_b))
    whole = last - first
    mix = (moved - first + last - bettered) / 2
    return whole, mix, whole - mix


def _ratio(shares: Floats, n: Floats, d: Floats) -> Floats:
    whole: Floats = (shares * n).sum(-1) / (shares * d).sum(-1)
    return whole
