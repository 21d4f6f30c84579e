"""The second verdict of before/after findings: beyond the drift, in line with it, not testable."""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pandas as pd

from pipeline.contracts.codes import DriftBecause
from pipeline.contracts.finding import Finding, control_of, drift_of
from pipeline.contracts.parts import ControlCheck, Drift, Span, StepTest
from pipeline.contracts.selection import Season, Selection, Windows
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
from pipeline.significance.methods.inference import benjamini_hochberg, holm
from pipeline.significance.methods.ratio import Bools, Floats

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
    asked = _asked(selection.seasons, selection.windows.transition, event)
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
        low, high = step.interval(0.95)
        p = step.p_value()
    rank, dates = rank_among_dates(seasons, asked.after)
    found = []
    for cell in range(seasons.log.shape[1]):
        ends = [math.expm1(end[cell]) for end in (step.value, low, high)]
        drift = [math.expm1(slope[cell]), math.expm1(slope[cell] * apart)]
        if not all(map(math.isfinite, (*ends, *drift, p[cell], step.df[cell]))):
            found.append(_untested("empty_season", asked))
            continue
        test = StepTest(
            per_season=drift[0],
            expected=drift[1],
            step=Span(value=ends[0], low=ends[1], high=ends[2]),
            p=float(p[cell]),
            df=float(step.df[cell]),
            rank=int(rank[cell]),
            dates=dates,
            fit=_line(seasons, asked, cell, per) if per else None,
        )
        found.append(_drift("step_within_chance", asked, test))
    return found


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


def _asked(seasons: list[Season], transition: str | None, event: EventDates) -> Asked:
    """Seasons from the first wanted on, without the one that the event fell inside."""
    labels = [season.label for season in seasons]
    begin = labels.index(event.trend_from) if event.trend_from in labels else 0
    kept = [season for season in seasons[begin:] if season.label != transition]
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


def judge_drift(findings: list[Finding], headlines: list[str], alpha: float) -> None:
    """Set the second verdict of every finding whose drift could be tested."""
    tested = [(f.id, drift) for f in findings if (drift := drift_of(f)) and drift.test]
    family = [(name, drift.test.p) for name, drift in tested if drift.test]
    for (_, drift), p in zip(tested, _adjusted(family, headlines), strict=True):
        drift.p_adjusted = p
        beyond = p < alpha
        drift.verdict = "beyond the drift" if beyond else "in line with the drift"
        drift.because = "step_beyond_chance" if beyond else "step_within_chance"


def judge_control(findings: list[Finding], headlines: list[str], alpha: float) -> None:
    """Set the verdict beside the control of every finding that has one."""
    tested: list[tuple[str, ControlCheck]] = [
        (f.id, check) for f in findings if (check := control_of(f))
    ]
    family = [(name, check.p) for name, check in tested]
    for (_, check), p in zip(tested, _adjusted(family, headlines), strict=True):
        check.p_adjusted = p
        check.verdict = "beyond the control" if p < alpha else "in line with the control"


def _adjusted(tested: list[tuple[str, float]], headlines: list[str]) -> list[float]:
    """Adjusted p in order: headlines by Holm, the others by Benjamini and Hochberg."""
    chosen = np.array([name in headlines for name, _ in tested], bool)
    found = np.array([p for _, p in tested])
    for mine, method in ((chosen, holm), (~chosen, benjamini_hochberg)):
        found[mine] = method(found[mine])
    return [float(p) for p in found]


def rivals(also: list[OtherEvent], windows: Windows, seasons: list[Season]) -> list[str]:
    """Other events between the first season before and the last season after."""
    named = {season.label: season for season in seasons}
    first: date = named[windows.before[0]].first
    last: date = named[windows.after[-1]].last
    return [event.name for event in also if first <= event.date <= last]
