"""How much wider an error is when neighbouring periods are alike.

A good year is followed by a good year, so that fourteen of them say less than fourteen. The
residuals of a fit show it, and too little of it: a fitted line takes up some of what neighbours
have in common, so that the residuals of independent points are correlated below nought (Kendall &
Stuart, The Advanced Theory of Statistics 3, on the bias of lag-one correlations; Marriott & Pope
1954). So the correlation is found that would leave as much in the residuals of this very design:
with M the residual maker and S the correlations rho^|i-j|, the residuals of errors like S have a
lag-one correlation of tr(MAMS) / tr(MS) in expectation, A having halves beside its diagonal. A
coefficient c'b of b = Pz has the variance s^2 c'PSP'c, with s^2 = e'e / tr(MS).

That takes the false alarms of a step among fourteen periods from 10, 13 and 16 % to 7, 8 and 9 % at
a correlation of .3, .5 and .7 (own simulations, tests/test_autocorrelation.py): an estimate from so
few points can't make them right. It leaves 4 % where there is none.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pipeline.significance.methods.ratio import Bools, Estimate, Floats
from pipeline.significance.methods.weighted import Fit

HIGHEST = 0.95  # no larger correlation is looked for
GRID: Floats = np.linspace(0.0, HIGHEST, 96)
Places = NDArray[np.int64]


class Serial(NamedTuple):
    """An estimate with its error widened, and by what: a value a cell.

    `rho` is the correlation of neighbours, nought where none shows or the residuals lean the other
    way; `factor` is what the variance was multiplied by.
    """

    estimate: Estimate
    rho: Floats
    factor: Floats

    @property
    def plain(self) -> Estimate:
        """With the error that independent neighbours would have."""
        made = self.estimate
        return Estimate(made.value, made.se / np.sqrt(self.factor), made.df)


def allowed_for(found: Fit, term: int, places: Places | None = None) -> Serial:
    """A coefficient of the fit, its error as of neighbours that are alike; t with n - k.

    `places` (points,) numbers the periods in order of time, 0, 1, 2, ... without it: where one is
    left out its neighbours are two apart.
    """
    plain, rho = found.term(term), correlation(found, places)
    factor = variance_factor(found, term, rho, places)
    return Serial(Estimate(plain.value, plain.se * np.sqrt(factor), plain.df), rho, factor)


def lag_one(found: Fit, places: Places | None = None) -> Floats:
    """sum e_t e_(t-1) / sum e_t^2 of the scaled residuals, as it is; nought of a perfect fit."""
    e = found.residual
    squares = (e**2).sum(1)
    together = (e[:, 1:] * e[:, :-1])[:, _beside(found, places)].sum(1)
    return found.spread(together / np.where(squares > 0, squares, 1.0))


def expected_lag_one(found: Fit, rho: Floats, places: Places | None = None) -> Floats:
    """tr(MAMS) / tr(MS) under each rho (rhos,) for each usable cell: (rhos, cells).

    With M = I - QQ', MAM is A - QB' - BQ' for B = AQ - Q(Q'AQ)/2: of none of them more is needed
    than its sum over the points that are so many periods apart.
    """
    q, beside = found.basis, _beside(found, places)
    aq = np.zeros_like(q)
    aq[:, 1:] += np.where(beside[:, None], q[:, :-1], 0.0) / 2
    aq[:, :-1] += np.where(beside[:, None], q[:, 1:], 0.0) / 2
    qaq = np.einsum("cip,ciq->cpq", q, aq) / 2
    b = aq - np.einsum("cip,cpq->ciq", q, qaq)
    mam = -2 * _by_lag(q, b, found, places)
    mam[:, 1] += beside.sum()
    powers = rho[:, None] ** np.arange(mam.shape[1])
    left = np.einsum("rl,cl->rc", powers, _residual_maker(found, places))
    expected: Floats = np.einsum("rl,cl->rc", powers, mam) / left
    return expected


def correlation(found: Fit, places: Places | None = None) -> Floats:
    """The rho under which residuals of this design are expected to be as alike as they are.

    From nought to HIGHEST: less than independent errors leave is nought, as is what has no
    neighbours, more than HIGHEST leave is HIGHEST. Between the points of the grid by interpolation.
    """
    if not _beside(found, places).any():
        return found.spread(np.zeros(found.usable.sum()))
    observed = lag_one(found, places)[found.usable]
    curve = np.maximum.accumulate(expected_lag_one(found, GRID, places), axis=0)
    at = (curve < observed).sum(0)
    inner, cell = np.clip(at, 1, len(GRID) - 1), np.arange(len(at))
    low, high = curve[inner - 1, cell], curve[inner, cell]
    with np.errstate(divide="ignore", invalid="ignore"):
        steps = inner - 1 + (observed - low) / (high - low)
    between = steps / (len(GRID) - 1) * HIGHEST
    found_at = np.where(at == 0, 0.0, np.where(at == len(GRID), HIGHEST, between))
    return found.spread(found_at)


def variance_factor(found: Fit, term: int, rho: Floats, places: Places | None = None) -> Floats:
    """What the variance of a coefficient is multiplied by under rho (cells,): 1 under nought.

    c'PSP'c / c'PP'c over tr(MS) / (n - k). Under one where the coefficient is a difference of
    neighbours, which what they have in common doesn't touch.
    """
    row, own = found.solver[:, term], rho[found.usable]
    maker = _residual_maker(found, places)
    powers = own[:, None] ** np.arange(maker.shape[1])
    together = (_by_lag(row[..., None], row[..., None], found, places) * powers).sum(1)
    left = (maker * powers).sum(1) / found.df
    return found.spread(together / (row**2).sum(1) / left)


def _order(found: Fit, places: Places | None) -> Places:
    """The place of each point in time, from nought."""
    points = found.residual.shape[1]
    order = np.arange(points) if places is None else np.asarray(places)
    if len(order) != points or np.any(np.diff(order) < 1):
        raise ValueError("places are one a point, in order of time, each once")
    since: Places = order - order[0]
    return since


def _beside(found: Fit, places: Places | None) -> Bools:
    """Whether each point but the first comes right after the one before it, (points - 1,)."""
    beside: Bools = np.diff(_order(found, places)) == 1
    return beside


def _by_lag(one: Floats, other: Floats, found: Fit, places: Places | None) -> Floats:
    """The sum of one's products with the other over all two points so many periods apart, in both
    orders and over the terms: (cells, lags) of two (cells, points, terms)."""
    order = _order(found, places)
    count = int(order[-1]) + 1
    spread = np.zeros((2, len(one), count, one.shape[2]))
    spread[0][:, order], spread[1][:, order] = one, other
    waves = np.fft.rfft(spread, 2 * count, axis=2)
    crossed = np.fft.irfft((waves[0] * waves[1].conj()).sum(-1), 2 * count, axis=1)
    summed: Floats = crossed[:, :count].copy()
    summed[:, 1:] += crossed[:, :-count:-1]
    return summed


def _residual_maker(found: Fit, places: Places | None) -> Floats:
    """I - QQ' on the scale of equal errors, summed over the points so many periods apart."""
    maker = -_by_lag(found.basis, found.basis, found, places)
    maker[:, 0] += found.basis.shape[1]
    return maker
