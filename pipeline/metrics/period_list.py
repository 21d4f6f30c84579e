"""The periods that a topic's matches fall into, and the one that its drift is told by."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from statistics import median
from typing import TYPE_CHECKING

from pipeline.contracts.codes import Unit, UnitBecause
from pipeline.contracts.selection import Season
from pipeline.contracts.timing import Period, Timing, Windows
from pipeline.metrics.matches import Played, seasons_of
from pipeline.periods import Grid, overlap

if TYPE_CHECKING:
    from pipeline.config.event_views import EventDates

FULL = 0.75  # of a usual period's span and of its matches: an end with less is a part of one
LEAST = 4  # periods, for one of them to be called usual


def timing_of(
    matches: Sequence[Played],
    event: EventDates | None,
    windows: Windows | None,
    asked: Iterable[Unit | None],
) -> Timing:
    """The unit of the drift, and the periods of it and of every unit that a series asks for."""
    unit, because = _unit(seasons_of(matches), event, windows)
    units = dict.fromkeys([unit, *(each for each in asked if each)])
    return Timing(
        windows=windows,
        unit=unit,
        because=because,
        periods={each: periods_of(matches, Grid.of(each, event), windows) for each in units},
    )


def _unit(
    seasons: list[Season], event: EventDates | None, windows: Windows | None
) -> tuple[Unit, UnitBecause]:
    """What is asked for; else the season, where seasons follow each other; else the year.

    A season that the event falls inside is on neither side; where the windows are of days, which
    take its matches, the year that is counted from the event has no such period.
    """
    if event and event.period:
        return event.period, "asked"
    if overlap(seasons):
        return "year", "seasons_overlap"
    cut = event and any(one.first < event.date <= one.last for one in seasons)
    if cut and windows and not windows.of_seasons:
        return "year", "season_cut"
    return "season", "seasons_follow"


def periods_of(matches: Sequence[Played], grid: Grid, windows: Windows | None) -> list[Period]:
    """In order of their first match, the parts among them marked."""
    labels = grid.labels((one.season for one in matches), (one.first for one in matches))
    groups: dict[str, list[Played]] = {}
    for label, match in zip(labels, matches, strict=True):
        groups.setdefault(label, []).append(match)
    found = [_period(label, group, windows) for label, group in groups.items()]
    found.sort(key=lambda one: (one.first, one.label))
    _mark_ends(found)
    for one in found:
        one.part = one.part or _settling(one, grid)
    return found


def _period(label: str, group: list[Played], windows: Windows | None) -> Period:
    sides = [windows.side(match.season, match.first) for match in group] if windows else []
    days = [match.first for match in group]
    return Period(
        label=label,
        first=min(days),
        last=max(days),
        matches=len(group),
        before=sides.count("before"),
        after=sides.count("after"),
    )


def _settling(one: Period, grid: Grid) -> bool:
    """Whether it lies in the settling in, which is no full period of its own."""
    return grid.unit != "season" and grid.settling(one.first)


def _mark_ends(periods: list[Period]) -> None:
    """The first and the last, where they hold less than three quarters of what is usual."""
    if len(periods) < LEAST:
        return
    matches = median(one.matches for one in periods)
    span = median(_span(one) for one in periods)
    for one in (periods[0], periods[-1]):
        one.part = one.matches < FULL * matches or _span(one) < FULL * span


def _span(one: Period) -> int:
    """Days from its first match to its last, both counted."""
    return (one.last - one.first).days + 1
