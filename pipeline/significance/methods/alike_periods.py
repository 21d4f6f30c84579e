"""How much wider the error of a change between windows is where neighbouring periods are alike.

A good season is followed by a good season, so five of them say less than five. How alike they are
is taken from the whole series of periods, beside a straight line with a step between the windows (a
drift is no likeness); where that is too short, from what each period of the windows does to the
number, beside the same; with the bias of the design off (`autocorrelation.py`). Nothing is made
narrower. From ten periods that takes false alarms at a correlation of .3 from 9 to 10 %
down to 6 or 7, and at .5 from 13 to 16 % down to 9; it costs a 5 % step under shocks of 2 % some
twenty points of power (own simulations, tests/calibration).
"""

from __future__ import annotations

import numpy as np

from pipeline.significance.methods.autocorrelation import correlation, variance_factor
from pipeline.significance.methods.clusters import Deleted
from pipeline.significance.methods.ratio import Bools, Estimate, Floats
from pipeline.significance.methods.weighted import Indistinct, fit

AFTER = 1  # its place beside the intercept
LEAST = 2  # periods of each window


def allowed(found: Estimate, factor: Floats) -> Estimate:
    """The same with its variance so many times as large."""
    return Estimate(found.value, found.se * np.sqrt(factor), found.df)


def factor(before: Deleted, after: Deleted, rho: Floats | None = None) -> Floats:
    """What the variance of after - before is multiplied by, 1 or more, a value a cell.

    Rows are periods in order of time. `rho` (cells,) is how alike neighbours are in a longer series
    that the windows are part of; without it, and where it is undefined, the windows' own periods
    have to tell. A cell's periods that are not there are passed over; with fewer than two in a
    window nothing can be told, and it is 1.
    """
    known = np.full(before.moved.shape[1], np.nan) if rho is None else rho
    moved = np.concatenate([before.moved, after.moved])
    usable: Bools = np.concatenate([before.here, after.here]) & np.isfinite(moved)
    late = np.arange(len(moved)) >= len(before.moved)
    found = np.ones(moved.shape[1])
    masks, which = np.unique(usable, axis=1, return_inverse=True)
    for at, mask in enumerate(masks.T):
        cells = np.flatnonzero(which.ravel() == at)
        if min((mask & late).sum(), (mask & ~late).sum()) >= LEAST:
            found[cells] = _of(moved[mask][:, cells], late[mask], known[cells])
    return found


def _of(moved: Floats, late: Bools, known: Floats) -> Floats:
    count, even = len(late), np.ones_like(moved)
    levels = np.column_stack([np.ones(count), late.astype(float)])
    try:
        rho = known
        if not np.isfinite(known).all():
            own = correlation(fit(moved, even, np.column_stack([levels, np.arange(count)])))
            rho = np.where(np.isfinite(known), known, own)
        times = variance_factor(fit(moved, even, levels), AFTER, rho)
    except Indistinct:
        return np.ones(moved.shape[1])
    wider: Floats = np.maximum(np.nan_to_num(times, nan=1.0), 1.0)
    return wider
