"""The same with the same: rates at one mix, and a change shared out among three factors.

Direct standardisation (Fleiss 1981, ch. 14; the mix that of both windows, Das Gupta 1993, as in
`kitagawa.py`) over the cells that were met in both windows: grounds that were played at before and
after, bowlers who bowled in both. What was met in one window only has nothing to be compared with
and is left out, and how much was is said.

Three factors: Das Gupta (1993, Standardization and Decomposition of Rates: A User's Manual, ch. 2
to 4). Each factor's part is what changing it alone makes of the rate, over all the orders in which
the three can change; the parts add up to the change and change sign with the windows.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from pipeline.significance.methods.kitagawa import Ends, Totals, ends, left_out, totals_of
from pipeline.significance.methods.ratio import Bools, Estimate, Floats, Sums

Factors = tuple[Floats, Floats, Floats]
Rate = Callable[[Floats, Floats, Floats], Floats]
Three = tuple[Ends, Ends, Ends]


class LikeForLike(NamedTuple):
    """A change over the cells that both windows have.

    `ends` are both windows' rates at the one mix, `log` and `units` their change; `kept` is the
    share of each window's denominator that lies in such cells, `cells` (cells,) which they are.
    """

    ends: Ends
    log: Estimate
    units: Estimate
    kept: Ends
    cells: Bools


def met_in_both(totals: Totals) -> Bools:
    """Cells with something to divide by in both windows; axes before the cells are kept."""
    _, x_a, _, x_b = totals
    met: Bools = (x_a > 0) & (x_b > 0)
    return met


def like_for_like(a: Sums, b: Sums) -> LikeForLike | None:
    """The change from a to b over the cells (columns) that both have; None where there are none.

    The mix is the mean of the two windows' shares of the denominator within those cells. Errors by
    leaving each row of either window out of all of it: a cell that a window has by one match alone
    is out of both without that match. Rows may be clusters (`clusters.gathered`).
    """
    totals = totals_of(a, b)
    met = met_in_both(totals)
    if not met.any():
        return None
    _, x_a, _, x_b = totals
    without_a = (totals[0] - a.y, x_a - a.x, *totals[2:])
    without_b = (*totals[:2], totals[2] - b.y, x_b - b.x)
    found = _at_one_mix(totals)
    replicates = [(_at_one_mix(without_a), a), (_at_one_mix(without_b), b)]
    log, units = (
        left_out(
            np.asarray(scale(found.after) - scale(found.before)),
            [(scale(each.after) - scale(each.before), window) for each, window in replicates],
        )
        for scale in (np.log, np.asarray)
    )
    kept = Ends(*(np.asarray(x[met].sum() / x.sum()) for x in (x_a, x_b)))
    return LikeForLike(found, log, units, kept, met)


def _at_one_mix(totals: Totals) -> Ends:
    met = met_in_both(totals)
    y_a, x_a, y_b, x_b = (np.where(met, each, 0.0) for each in totals)
    return ends((y_a, x_a, y_b, x_b), "rates")


def product(alpha: Floats, beta: Floats, gamma: Floats) -> Floats:
    """The rate of factors that multiply, summed over the cells of the last axis."""
    rate: Floats = (alpha * beta * gamma).sum(-1)
    return rate


def three_factors(first: Factors, second: Factors, rate: Rate = product) -> Three:
    """Each factor's two ends: the rate with that factor as it was in either window.

    The other two stand at the mean of both windows over the orders in which they can have changed:
    a third each for both as before and both as after, a sixth each for one of each (Das Gupta 1993,
    ch. 3). A factor's part is `after` less `before`. `rate` takes the three factors; axes before
    the cells are kept, so that rows may be replicates.
    """
    alpha, beta, gamma = (_factor(rate, first, second, place) for place in range(3))
    return alpha, beta, gamma


def _factor(rate: Rate, first: Factors, second: Factors, place: int) -> Ends:
    one, other = (pair for at, pair in enumerate(zip(first, second, strict=True)) if at != place)

    def end(own: Floats) -> Floats:
        def beside(left: int, right: int) -> Floats:
            factors = [one[left], other[right]]
            factors.insert(place, own)
            return rate(*factors)

        alike, mixed = beside(0, 0) + beside(1, 1), beside(0, 1) + beside(1, 0)
        found: Floats = alike / 3 + mixed / 6
        return found

    return Ends(end(first[place]), end(second[place]))


def parts(
    windows: tuple[Sums, Sums],
    first: tuple[Factors, Factors],
    second: tuple[Factors, Factors],
    rate: Rate = product,
) -> tuple[Estimate, Estimate, Estimate]:
    """The three parts in units, each with its error by leaving out every row of either window.

    `first` and `second` are a window's factors and the same with each of its rows left out (rows,
    cells). Of `windows` only which rows belong to them is asked.
    """
    (a, without_a), (b, without_b) = first, second
    found = three_factors(a, b, rate)
    halves = (three_factors(without_a, b, rate), three_factors(a, without_b, rate))
    alpha, beta, gamma = (
        left_out(
            _part(found[place]),
            [(_part(half[place]), sums) for half, sums in zip(halves, windows, strict=True)],
        )
        for place in range(3)
    )
    return alpha, beta, gamma


def _part(of: Ends) -> Floats:
    moved: Floats = np.asarray(of.after - of.before)
    return moved
