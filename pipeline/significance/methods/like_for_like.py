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

from pipeline.significance.methods.kitagawa import Ends, Totals, left_out
from pipeline.significance.methods.ratio import Bools, Estimate, Floats, Sums
from pipeline.significance.methods.split import Scale

Factors = tuple[Floats, Floats, Floats]
Rate = Callable[[Floats, Floats, Floats], Floats]
Three = tuple[Ends, Ends, Ends]
Window = tuple[Floats, ...]  # numerator, denominator and weight by cell, axes before them kept


class LikeForLike(NamedTuple):
    """A change over the cells that both windows have.

    `ends` are both windows' rates at the one mix, `log` and `units` their change; `log_beyond` and
    `units_beyond` are that less the plain change, each row left out of both at once. `kept` is the
    share of each window's weight that lies in such cells, `cells` (cells,) which they are.
    """

    ends: Ends
    log: Estimate
    units: Estimate
    log_beyond: Estimate
    units_beyond: Estimate
    kept: Ends
    cells: Bools


def met_in_both(totals: Totals) -> Bools:
    """Cells with something to divide by in both windows; axes before the cells are kept."""
    _, x_a, _, x_b = totals
    met: Bools = (x_a > 0) & (x_b > 0)
    return met


def like_for_like(
    a: Sums, b: Sums, weights: tuple[Floats, Floats] | None = None
) -> LikeForLike | None:
    """The change from a to b over the cells (columns) that both have; None where there are none.

    The mix is the mean of the two windows' shares of the denominator within those cells; or of
    `weights` (rows, cells), where shares of the denominator are no mix: of runs a wicket they would
    say who took them (`split.py`). Errors by leaving each row of either window out of all of it: a
    cell that a window has by one match alone is out of both without that match. Rows may be
    clusters (`clusters.gathered`).
    """
    w_a, w_b = weights or (a.x, b.x)
    of_a, of_b = (a.y, a.x, w_a), (b.y, b.x, w_b)
    whole_a, whole_b = (tuple(each.sum(0) for each in of) for of in (of_a, of_b))
    met = met_in_both((whole_a[0], whole_a[2], whole_b[0], whole_b[2]))
    if not met.any():
        return None
    found = _at_one_mix(whole_a, whole_b)
    plain = _plain(whole_a, whole_b)
    replicates = []
    for at, (of, window) in enumerate(((of_a, a), (of_b, b))):
        sides = [whole_a, whole_b]
        sides[at] = tuple(t - row for t, row in zip(sides[at], of, strict=True))
        replicates.append((_at_one_mix(*sides), _plain(*sides), window))

    def estimate(scale: Scale, beyond: bool) -> Estimate:
        def of(alike: Ends, crude: Ends) -> Floats:
            return _moved(alike, scale) - (_moved(crude, scale) if beyond else 0.0)

        halves = [(of(alike, crude), window) for alike, crude, window in replicates]
        return left_out(of(found, plain), halves)

    kept = Ends(*(np.asarray(w[2][met].sum() / w[2].sum()) for w in (whole_a, whole_b)))
    scales: tuple[Scale, Scale] = (np.log, np.asarray)
    log, units = (estimate(scale, False) for scale in scales)
    log_beyond, units_beyond = (estimate(scale, True) for scale in scales)
    return LikeForLike(found, log, units, log_beyond, units_beyond, kept, met)


def _moved(of: Ends, scale: Scale = np.asarray) -> Floats:
    moved: Floats = np.asarray(scale(of.after) - scale(of.before))
    return moved


def _plain(a: Window, b: Window) -> Ends:
    """Both windows' ratios as they are."""
    return Ends(*(np.asarray(w[0].sum(-1) / w[1].sum(-1)) for w in (a, b)))


def _at_one_mix(a: Window, b: Window) -> Ends:
    """Both windows' ratios of sums a unit of weight, over the cells that both have."""
    met = (a[2] > 0) & (b[2] > 0)
    (y_a, x_a, w_a), (y_b, x_b, w_b) = ([np.where(met, each, 0.0) for each in w] for w in (a, b))
    shares = sum(w / w.sum(-1, keepdims=True) for w in (w_a, w_b))
    rates = []
    for y, x, w in ((y_a, x_a, w_a), (y_b, x_b, w_b)):
        each = np.where(met, w, 1.0)
        rates.append((shares * y / each).sum(-1) / (shares * x / each).sum(-1))
    return Ends(*rates)


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
            _moved(found[place]),
            [(_moved(half[place]), sums) for half, sums in zip(halves, windows, strict=True)],
        )
        for place in range(3)
    )
    return alpha, beta, gamma
