"""What the second verdict rests on: the step beside the drift, or why it can't be tested."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal, NamedTuple

import numpy as np
import pandas as pd

from pipeline.calendar import YEAR
from pipeline.contracts.codes import DriftBecause, Unit
from pipeline.contracts.over_time import Drift, StepTest
from pipeline.contracts.selection import Season
from pipeline.contracts.timing import Period, Timing
from pipeline.periods import Grid
from pipeline.significance.methods.autocorrelation import Places
from pipeline.significance.methods.drift import (
    LEAST_AFTER,
    LEAST_BEFORE,
    Seasons,
    of_gaps,
    of_rates,
    step_and_drift,
)
from pipeline.significance.methods.ratio import Bools, Floats
from pipeline.significance.methods.weighted import Indistinct
from pipeline.significance.step_tests import step_tests
from pipeline.trend import in_the_fit

if TYPE_CHECKING:
    from pipeline.config.event_views import EventDates

YEARLY = (0.9, 1.1)  # years from one season to the next, for what a year adds to be a season's


class Asked(NamedTuple):
    """The periods that the trend is taken from, when each was, and which come after the event.

    `places` number them in time, with room for what is left out between them; `event` is the day of
    the event; `apart` are the years between the centres of the windows, each the middle of its
    matches.
    """

    labels: list[str]
    middle: Floats  # years
    after: Bools
    places: Places
    event: float  # years
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
    tests = step_tests(gaps_or_rates(rows, cells, asked, against), asked, per)
    return [
        _drift("step_within_chance", asked, test) if test else _untested("empty_period", asked)
        for test in tests
    ]


def gaps_or_rates(
    rows: pd.DataFrame, cells: list[str], asked: Asked, against: list[str] | None
) -> Seasons:
    """Each cell's log rates by period; with `against`, over those of the other cells."""
    since = asked.middle - asked.middle[0]
    seasons = of_rates(*_totals(rows, asked.labels, cells), since)
    if against is None:
        return seasons
    return of_gaps(of_rates(*_totals(rows, asked.labels, against), since), seasons)


def alike_of(
    rows: pd.DataFrame, cells: list[str], asked: Asked, against: list[str] | None = None
) -> Floats:
    """How alike neighbouring periods of each cell are, or of its gap to another's; (cells,)."""
    seasons = gaps_or_rates(rows, cells, asked, against)
    try:
        return step_and_drift(seasons, asked.after, asked.places)[0].rho
    except Indistinct:
        return np.full(len(cells), np.nan)


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
        places=_places(kept, every, timing.unit, event),
        event=event.date.toordinal() / YEAR,
        apart=_centre(every, [one.after for one in every])
        - _centre(every, [one.before for one in every]),
        unit=timing.unit,
        left_out=[one.label for one in every if one not in kept and not _too_early(one, kept)],
    )


def _places(
    kept: Sequence[Period], every: Sequence[Period], unit: Unit, event: EventDates
) -> Places:
    """Each one's number in time: a stretch of the calendar without a match has one, too."""
    labels = [one.label for one in every]
    if unit != "season" and every:
        grid = Grid(unit, event.date, event.settled)
        labels = grid.between(every[0].first, every[-1].first)
    numbered = {label: place for place, label in enumerate(labels)}
    return np.array([numbered[one.label] for one in kept], np.int64)


def _too_early(one: Period, kept: list[Period]) -> bool:
    """Whether it lies before the trend begins, as the topic asks for it."""
    return bool(kept) and not one.part and one.first < kept[0].first


def _centre(periods: Sequence[Period], matches: Sequence[int]) -> float:
    """The years at the middle of a window: of its periods' middles, by their matches in it."""
    middles = np.array([one.middle / YEAR for one in periods])
    return float(np.average(middles, weights=np.array(matches, float)))


def _totals(rows: pd.DataFrame, labels: list[str], cells: list[str]) -> tuple[Floats, Floats]:
    """(periods, cells) of both sums; a cell may be asked for more than once."""
    names = list(dict.fromkeys(cells))
    season = pd.Index(labels).get_indexer(pd.Index(rows["period"]))
    cell = pd.Index(names).get_indexer(pd.Index(rows["cell"]))
    kept = (season >= 0) & (cell >= 0)
    y, x = np.zeros((len(labels), len(names))), np.zeros((len(labels), len(names)))
    np.add.at(y, (season[kept], cell[kept]), rows["y"].to_numpy()[kept])
    np.add.at(x, (season[kept], cell[kept]), rows["x"].to_numpy()[kept])
    asked = [names.index(each) for each in cells]
    return y[:, asked], x[:, asked]
