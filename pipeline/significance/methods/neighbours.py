"""Simulated series without a break whose neighbours are alike, as those of the real one are.

A good quarter is followed by a good one, and a run of them looks like a step: of 28 quarters with a
correlation of .5 a test whose noise is independent calls a date in 40 of 100 series without any.
So the largest F over the dates is held against series that are as alike. How alike is taken from
what the model without a step leaves over, with the bias of so few points taken off
(`autocorrelation.py`): a step makes it look more alike than it is, so that a date is missed sooner
than made up. Since that estimate is itself a guess, every simulated series has its own, and each F
is divided by what is usual for its own (the test is calibrated by simulation of the whole
procedure: Beran 1988, Journal of the American Statistical Association 83).

False dates of 28 points go from 4, 21, 40 and 64 % at a correlation of 0, .3, .5 and .7 to 4, 5, 5
and 4 %, of 14 points from 5, 13, 24 and 32 % to 3, 4, 4 and 6 %. What it costs: where neighbours
are not alike a step of four standard deviations in the middle is dated in 82 of 100 series of 28
points instead of 98, and in 38 of 14 points instead of 58; of six, in 99 and 80 instead of 100 and
94 (own simulations, tests/test_structural_break.py and tests/calibration). A correlation estimated
beside the best step would cost less against a small step, more against a large one, and gives 8 to
11 % false dates.
"""

from __future__ import annotations

from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np

from pipeline.significance.methods.autocorrelation import (
    GRID,
    HIGHEST,
    Places,
    expected_lag_one,
)
from pipeline.significance.methods.ratio import Floats
from pipeline.significance.methods.weighted import Fit

DRAWS = 9972  # of series of pure noise; one more is a prime, so that p falls on no level
SEED = 1
SOME = 1500  # of them say what is usual
USUAL = 0.95
# Noise is simulated at the nearest of these; what is usual, at every other one.
RHOS: Floats = np.linspace(0.0, HIGHEST, 21)


class Noise(NamedTuple):
    """Simulated series, each on the model's scale of equal errors, held against each date's step.

    `along` (draws, dates) is each series' part along each step, the steps at unit length, `whole`
    (draws,) its sum of squares, in expectation a unit for each point that the model leaves; `rho`
    (draws,) how alike its neighbours look. `length` of each step is in units of the noise, and
    `overlap` that of the steps with each other (dates, dates).
    """

    along: Floats
    whole: Floats
    rho: Floats
    length: Floats
    overlap: Floats

    def largest(self, df: int) -> Floats:
        """The largest F of each series."""
        gain: Floats = (self.along**2).max(1)
        return gain / ((self.whole - gain) / df)


class Neighbours:
    """How alike the neighbours of one series are, and noise of that kind.

    `found` is the fit without a step, `steps` (dates, points) are each date's on the scale of equal
    errors, `places` (points,) number the points in time.
    """

    def __init__(self, found: Fit, steps: Floats, places: Places):
        self.places, self.basis, self.df = places, found.basis[0], found.df - 1
        along: Floats = steps - steps @ self.basis @ self.basis.T
        self.length: Floats = np.sqrt((along**2).sum(1))
        self.steps: Floats = along / self.length[:, None]
        left_over = expected_lag_one(found, GRID, places)[:, 0]
        self.curve: Floats = np.maximum.accumulate(left_over)
        self._noise: dict[int, Noise] = {}

    def rho(self, residual: Floats) -> Floats:
        """How alike the neighbours are in residuals (series, points) on the scale of equal ones.

        Nought where no two points are neighbours.
        """
        if not np.any(np.diff(self.places) == 1):
            return np.zeros(len(residual))
        e = np.where(np.diff(self.places) == 1, residual[:, 1:] * residual[:, :-1], 0.0)
        whole = (residual**2).sum(1)
        alike = e.sum(1) / np.where(whole > 0, whole, 1.0)
        found: Floats = np.interp(alike, self.curve, GRID)
        return found

    def noise(self, rho: float) -> Noise:
        """Series as alike as that, to the nearest of RHOS."""
        at = nearest(rho)
        if at not in self._noise:
            self._noise[at] = self._drawn(float(RHOS[at]), DRAWS)
        return self._noise[at]

    def usual(self, rho: Floats) -> Floats:
        """The F that one in twenty series exceeds whose neighbours are as alike."""
        found: Floats = np.interp(rho, RHOS[::2], self._usual)
        return found

    @cached_property
    def _usual(self) -> Floats:
        each = (self._drawn(float(rho), SOME).largest(self.df) for rho in RHOS[::2])
        return np.array([np.quantile(largest, USUAL) for largest in each])

    def beyond_usual(self, rho: float) -> Floats:
        """The largest F of each simulated series, over what is usual for it (draws,)."""
        noise = self.noise(rho)
        return noise.largest(self.df) / self.usual(noise.rho)

    def _drawn(self, rho: float, draws: int) -> Noise:
        count = len(self.places)
        drawn = _standard(draws, count).copy()
        kept = rho ** np.diff(self.places).astype(float)
        for point, part in enumerate(kept if rho else kept[:0], 1):
            drawn[:, point] = part * drawn[:, point - 1] + np.sqrt(1 - part**2) * drawn[:, point]
        drawn -= drawn @ self.basis @ self.basis.T
        drawn *= np.sqrt((self.df + 1) / self._left(rho))
        whole = (drawn**2).sum(1)
        overlap = self.steps @ self.steps.T
        return Noise(drawn @ self.steps.T, whole, self.rho(drawn), self.length, overlap)

    def _left(self, rho: float) -> float:
        """What the model leaves of series of unit variance: tr(MS)."""
        alike = rho ** np.abs(self.places[:, None] - self.places[None, :])
        return float(np.trace(alike) - np.trace(self.basis.T @ alike @ self.basis))


@lru_cache(maxsize=4)
def _standard(draws: int, count: int) -> Floats:
    """Noise of unit variance, the same for every series of so many points."""
    drawn: Floats = np.random.default_rng(SEED).standard_normal((draws, count))
    drawn.flags.writeable = False
    return drawn


def nearest(rho: float) -> int:
    return int(np.abs(RHOS - rho).argmin())
