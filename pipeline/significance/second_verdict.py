"""What the second verdict rests on: the step beside the drift, or why it can't be tested."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal, NamedTuple

import numpy as np
import pandas as pd

from pipeline.contracts.codes import DriftBecause, Unit
from pipeline.contracts.parts import CONFIDENCE, Drift, Slope, StepTest
from pipeline.contracts.selection import Season
from pipeline.contracts.timing import Period, Timing
from pipeline.significance.methods.drift import (
    LEAST_AFTER,
    LEAST_BEFORE,
    Seasons,
    fitted,
    of_gaps,
    of_rates,
    rank_among_dates,
    step_and_drift,
)
from pipeline.significance.methods.ratio import Bools, Estimate, Floats
from pipeline.significance.printed import of_log
from pipeline.trend import in_the_fit

if TYPE_CHECKING:
    from pipeline.config.views import EventDates

YEAR = 365.25  # days
YEARLY = (0.9, 1.1)  # years from one season to the next, for what a year adds to be a season's


class Asked(NamedTuple):
    """The periods that the trend is taken from, when each was, and which come after the event.

    `apart` are the years between the centres of the windows, each the middle of its matches.
    """

    labels: list[str]
    middle: Floats  # years
    after: Bools
    apart: float
    unit: Unit
    left_out: list[str]

    @property
    def per(self) -> Literal["season", "year"]:
        """What the drift is told by: seasons that are no year apart would make it another one."""
        steps = np.diff(self.middle)
        yearly = len(steps) and YEARLY[0] <= float(np.median(steps)) <= YEARLY[1]
        return "season" if self.unit == "season" and yearly else "year"


def drift_checks(
    rows: pd.DataFrame,
    cells: list[str],
    asked: Asked,
    against: list[str] | None = None,
    per: float | None = None,
) -> list[Drift]:
    """What the periods say of each cell's change; `rows` hold all of them in column `period`.

    With `against`, cells of the same length, it is of the gap: a cell's log rate over the other's.
    With `per`, the measure's scale, the drift with its step is given at every period, to be drawn.
    """
    few = too_few(asked)
    if few:
        return [_untested(few, asked) for _ in cells]
    since = asked.middle - asked.middle[0]
    seasons = of_rates(*_totals(rows, asked.labels, cells), since)
    if against is not None:
        seasons = of_gaps(of_rates(*_totals(rows, asked.labels, against), since), seasons)
    return _tested(seasons, asked, per)


def _tested(seasons: Seasons, asked: Asked, per: float | None) -> list[Drift]:
    """A verdict, still open, a cell."""
    step, slope = step_and_drift(seasons, asked.after)
    with np.errstate(all="ignore"):
        p = step.p_value()
    rank, dates = rank_among_dates(seasons, asked.after)
    found = []
    for cell in range(seasons.log.shape[1]):
        told = [part[cell] for part in (*_parts(step), *_parts(slope), p)]
        if not all(map(math.isfinite, told)):
            found.append(_untested("empty_period", asked))
            continue
        test = StepTest(
            slope=_slope(slope, cell),
            expected=_slope(slope, cell, asked.apart),
            step=of_log(
                math.expm1(step.value[cell]), float(step.se[cell]), step.df[cell], CONFIDENCE
            ),
            p=float(p[cell]),
            se=float(step.se[cell]),
            df=float(step.df[cell]),
            rank=int(rank[cell]),
            dates=dates,
            fit=_line(seasons, asked, cell, per) if per else None,
        )
        found.append(_drift("step_within_chance", asked, test))
    return found


def _parts(estimate: Estimate) -> tuple[Floats, Floats, Floats]:
    return estimate.value, estimate.se, estimate.df


def _slope(slope: Estimate, cell: int, years: float = 1.0) -> Slope:
    """What the drift alone makes in so many years, with its 95 % interval."""
    value, se = slope.value[cell] * years, abs(float(slope.se[cell] * years))
    span = of_log(math.expm1(value), se, slope.df[cell], CONFIDENCE)
    return Slope(value=span.value, low=span.low, high=span.high)


def _line(seasons: Seasons, asked: Asked, cell: int, per: float) -> list[tuple[str, float]]:
    one = Seasons(seasons.log[:, [cell]], seasons.weight[:, [cell]], seasons.time)
    values = np.exp(fitted(one, asked.after)[:, 0]) * per
    return [(label, float(value)) for label, value in zip(asked.labels, values, strict=True)]


def _untested(because: DriftBecause, asked: Asked) -> Drift:
    return _drift(because, asked, None)


def _drift(because: DriftBecause, asked: Asked, test: StepTest | None) -> Drift:
    """The verdict of one that is tested is set with its family."""
    return Drift(
        verdict="in line with the drift" if test else "not testable",
        because=because,
        periods_before=int((~asked.after).sum()),
        periods_after=int(asked.after.sum()),
        first=asked.labels[0] if asked.labels else "",
        last=asked.labels[-1] if asked.labels else "",
        unit=asked.unit,
        per=asked.per,
        left_out=asked.left_out,
        test=test,
    )


def too_few(asked: Asked) -> DriftBecause | None:
    """Why the periods bear no drift with a step, if they don't."""
    if (~asked.after).sum() < LEAST_BEFORE:
        return "few_periods_before"
    return "few_periods_after" if asked.after.sum() < LEAST_AFTER else None


def asked_of(timing: Timing, seasons: Sequence[Season], event: EventDates) -> Asked:
    """When each period of the trend was, and whether it came after the event."""
    every = timing.periods[timing.unit]
    kept = in_the_fit(every, seasons, event)
    return Asked(
        labels=[one.label for one in kept],
        middle=np.array([one.middle / YEAR for one in kept]),
        after=np.array([one.first >= event.date for one in kept], bool),
        apart=_centre(every, [one.after for one in every])
        - _centre(every, [one.before for one in every]),
        unit=timing.unit,
        left_out=[one.label for one in every if one not in kept and not _too_early(one, kept)],
    )


def _too_early(one: Period, kept: list[Period]) -> bool:
    """Whether it lies before the trend begins, as the topic asks for it."""
    return bool(kept) and not one.part and one.first < kept[0].first


def _centre(periods: Sequence[Period], matches: Sequence[int]) -> float:
    """The years at the middle of a window: of its periods' middles, by their matches in it."""
    middles = np.array([one.middle / YEAR for one in periods])
    return float(np.average(middles, weights=np.array(matches, float)))


def _totals(rows: pd.DataFrame, labels: list[str], cells: list[str]) -> tuple[Floats, Floats]:
    season = pd.Index(labels).get_indexer(pd.Index(rows["period"]))
    cell = pd.Index(cells).get_indexer(pd.Index(rows["cell"]))
    kept = (season >= 0) & (cell >= 0)
    y, x = np.zeros((len(labels), len(cells))), np.zeros((len(labels), len(cells)))
    np.add.at(y, (season[kept], cell[kept]), rows["y"].to_numpy()[kept])
    np.add.at(x, (season[kept], cell[kept]), rows["x"].to_numpy()[kept])
    return y, x
