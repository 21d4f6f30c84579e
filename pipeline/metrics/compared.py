"""Which balls a topic compares, and which it reads beside them: each once over all its beats."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.timing import Timing
from pipeline.event_of import event_of
from pipeline.metrics.query import balls_of
from pipeline.metrics.window_sql import in_any, window_sql
from pipeline.sql import quoted_list
from pipeline.trend import in_the_fit

if TYPE_CHECKING:
    from datetime import date

    from pipeline.config.event_views import EventDates
    from pipeline.config.views import MetricsView
    from pipeline.contracts.selection import Season
    from pipeline.contracts.timing import Period

Timings = dict[str | None, Timing]  # by the event that a beat is about


def compared_and_counted(
    view: MetricsView, seasons: list[Season], timings: Timings
) -> tuple[str, str]:
    """(the condition of the balls in some beat's windows or groups, of those that are counted).

    What is counted and not compared is behind the drift, or a point of a series. `where` of the
    beats names players by id.
    """
    compared, counted = [], []
    for beat in view.beats:
        timing = timings[beat.about]
        _, conditions = balls_of(beat, view, timing.windows)
        read = " AND ".join(f"({condition})" for condition in conditions)
        timed = beat.traits.compares == "windows"
        trend = _of_the_trend(timing, seasons, event_of(view, beat))
        counted.append(f"{read} AND {trend}" if timed else read)
        if beat.traits.compares == "groups":
            compared.append(read)
        elif timing.windows:
            compared.append(f"{read} AND {window_sql(timing.windows)} <> 'outside'")
    return _any(compared), _any(counted)


def _of_the_trend(timing: Timing, seasons: list[Season], event: EventDates | None) -> str:
    """The condition of what is behind a drift or in a window: beats read the rest to no end."""
    if event is None or timing.windows is None:
        return "true"
    every = timing.periods[timing.unit]
    kept = in_the_fit(every, seasons, event)
    if timing.unit == "season":
        behind = f"m.season IN ({quoted_list([one.label for one in kept])})"
    else:
        behind = in_any(_runs(every, kept))
    if not any(one.before or one.after for one in every if one not in kept):
        return behind if timing.unit == "season" else f"({behind})"
    return f"({behind} OR {window_sql(timing.windows)} <> 'outside')"


def _runs(periods: list[Period], kept: list[Period]) -> list[tuple[date, date]]:
    """The stretches of days that the kept ones make, those beside each other as one."""
    runs: list[tuple[date, date]] = []
    beside = False
    for one in periods:
        if one not in kept:
            beside = False
            continue
        runs[len(runs) - beside :] = [(runs[-1][0] if beside else one.first, one.last)]
        beside = True
    return runs


def _any(conditions: list[str]) -> str:
    return " OR ".join(f"({one})" for one in dict.fromkeys(conditions)) or "false"
