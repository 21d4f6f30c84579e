"""What the second verdict rests on: the step beside the drift, or why it can't be tested."""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pandas as pd

from pipeline.contracts.codes import DriftBecause
from pipeline.contracts.parts import CONFIDENCE, Drift, Slope, StepTest
from pipeline.contracts.selection import Season, Selection, Windows, of_the_trend
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

if TYPE_CHECKING:
    from pipeline.config.topic import OtherEvent
    from pipeline.config.views import EventDates

YEAR = 365.25  # days


class Asked(NamedTuple):
    """The seasons that the trend is taken from, when each was, and which come after the event."""

    labels: list[str]
    middle: Floats  # years
    after: Bools


def drift_checks(
    rows: pd.DataFrame,
    cells: list[str],
    selection: Selection,
    event: EventDates,
    against: list[str] | None = None,
    per: float | None = None,
) -> list[Drift]:
    """What the seasons say of each cell's change; `rows` hold every season of the topic's data.

    With `against`, cells of the same length, it is of the gap: a cell's log rate over the other's.
    With `per`, the measure's scale, the drift with its step is given at every season, to be drawn.
    """
    if selection.windows is None:
        raise ValueError("there is no drift without windows")
    asked = _asked(selection.seasons, selection.windows, event)
    few = _too_few(asked)
    if few:
        return [_untested(few, asked) for _ in cells]
    since = asked.middle - asked.middle[0]
    seasons = of_rates(*_totals(rows, asked.labels, cells), since)
    if against is not None:
        seasons = of_gaps(of_rates(*_totals(rows, asked.labels, against), since), seasons)
    return _tested(seasons, asked, _apart(selection.windows, asked), per)


def _tested(seasons: Seasons, asked: Asked, apart: float, per: float | None) -> list[Drift]:
    """A verdict, still open, a cell; `apart` are the years between the windows' centres."""
    step, slope = step_and_drift(seasons, asked.after)
    with np.errstate(all="ignore"):
        p = step.p_value()
    rank, dates = rank_among_dates(seasons, asked.after)
    found = []
    for cell in range(seasons.log.shape[1]):
        told = [part[cell] for part in (*_parts(step), *_parts(slope), p)]
        if not all(map(math.isfinite, told)):
            found.append(_untested("empty_season", asked))
            continue
        test = StepTest(
            per_season=_slope(slope, cell),
            expected=_slope(slope, cell, apart),
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
        seasons_before=int((~asked.after).sum()),
        seasons_after=int(asked.after.sum()),
        first=asked.labels[0],
        last=asked.labels[-1],
        test=test,
    )


def _too_few(asked: Asked) -> DriftBecause | None:
    if (~asked.after).sum() < LEAST_BEFORE:
        return "few_seasons_before"
    return "few_seasons_after" if asked.after.sum() < LEAST_AFTER else None


def _asked(seasons: list[Season], windows: Windows, event: EventDates) -> Asked:
    """When each season of the trend was, and whether it came after the event."""
    kept = of_the_trend(seasons, windows, event.trend_from)
    middle = [(day.first.toordinal() + day.last.toordinal()) / 2 / YEAR for day in kept]
    after = [season.first >= event.date for season in kept]
    return Asked([season.label for season in kept], np.array(middle), np.array(after, bool))


def _totals(rows: pd.DataFrame, labels: list[str], cells: list[str]) -> tuple[Floats, Floats]:
    season = pd.Index(labels).get_indexer(pd.Index(rows["season"]))
    cell = pd.Index(cells).get_indexer(pd.Index(rows["cell"]))
    kept = (season >= 0) & (cell >= 0)
    y, x = np.zeros((len(labels), len(cells))), np.zeros((len(labels), len(cells)))
    np.add.at(y, (season[kept], cell[kept]), rows["y"].to_numpy()[kept])
    np.add.at(x, (season[kept], cell[kept]), rows["x"].to_numpy()[kept])
    return y, x


def _apart(windows: Windows, asked: Asked) -> float:
    """Years between the centres of the two windows."""
    middle = dict(zip(asked.labels, asked.middle, strict=True))
    before, after = (
        float(np.mean([middle[label] for label in labels]))
        for labels in (windows.before, windows.after)
    )
    return after - before


def rivals(also: list[OtherEvent], windows: Windows, seasons: list[Season]) -> list[str]:
    """Other events between the first season before and the last season after."""
    named = {season.label: season for season in seasons}
    first: date = named[windows.before[0]].first
    last: date = named[windows.after[-1]].last
    return [event.name for event in also if first <= event.date <= last]
