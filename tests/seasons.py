"""Seasons, windows and events of an invented competition, as the stages are given them."""

from __future__ import annotations

from datetime import date

from pipeline.config.event_views import EventDates
from pipeline.config.when import Window as Wanted
from pipeline.config.when import parse_gap
from pipeline.contracts.selection import BeatSelection, Holdings, Season, Selection
from pipeline.contracts.timing import Neither, Period, Timing, Window, Windows
from pipeline.metrics.matches import Played
from pipeline.metrics.windows import choose_windows


def season(year: int) -> Season:
    """A summer's season of forty matches."""
    return Season(label=str(year), first=date(year, 4, 1), last=date(year, 9, 30), matches=40)


def windows(before: list[str], after: list[str], inside: str | None = None) -> Windows:
    """Of seasons by their labels, which are years."""
    return Windows(
        before=window(before),
        after=window(after),
        inside=[inside] if inside else [],
        neither=Neither(earlier=0, between=0, inside=40 if inside else 0, later=0),
    )


def window(labels: list[str]) -> Window:
    first, last = (season(_year(label)) for label in (labels[0], labels[-1]))
    return Window(
        asked=f"{len(labels)} seasons",
        first=first.first,
        last=last.last,
        seasons=labels,
        matches=40 * len(labels),
        begins=first.first,
        ends=last.last,
    )


def _year(label: str) -> int:
    """The year that a label begins with; of one without, some year."""
    return int(label[:4]) if label[:4].isdigit() else 2012


def timing(seasons: list[Season], chosen: Windows | None) -> Timing:
    """By seasons, with what each has in the windows."""
    return Timing(
        windows=chosen, unit="season", periods={"season": [_period(one, chosen) for one in seasons]}
    )


def _period(one: Season, chosen: Windows | None) -> Period:
    side = chosen.side(one.label, one.first) if chosen else "outside"
    counts = {name: one.matches if side == name else 0 for name in ("before", "after")}
    return Period(label=one.label, first=one.first, last=one.last, matches=one.matches, **counts)


def event(
    day: str,
    before: dict | None = None,
    after: dict | None = None,
    trend_from: str | None = None,
    gap: str | None = None,
) -> EventDates:
    """An event with its windows as a topic's file has them: two seasons unless they are given."""
    two = {"seasons": 2}
    settling, begun = parse_gap(gap), date.fromisoformat(day)
    return EventDates(
        date=begun,
        settled=settling.after(begun) if settling else begun,
        before=Wanted(**before or two),
        after=Wanted(**after or two),
        trend_from=trend_from,
        gap_after=settling,
    )


def selection(
    seasons: list[Season], chosen: Windows | None, beats: dict[str, BeatSelection] | None = None
) -> Selection:
    """What was selected of these seasons: no new sides, nothing corrected."""
    matches = sum(each.matches for each in seasons)
    data = Holdings(
        matches=matches,
        balls=600 * matches,
        first=seasons[0].first,
        last=seasons[-1].last,
        targets_reduced=0,
        unknown_balls={},
    )
    return Selection(
        data=data,
        corrections=[],
        seasons=seasons,
        timing=timing(seasons, chosen),
        newcomers={},
        beats=beats or {},
    )


def matches_of(seasons: list[Season]) -> list[Played]:
    """One-day matches spread over each season, the first and the last on its ends."""
    found = []
    for one in seasons:
        step = (one.last - one.first) / (one.matches - 1)
        days = [one.first + step * at for at in range(one.matches)]
        found += [Played(one.label, day, day) for day in days]
    return sorted(found, key=lambda match: match.first)


def chosen_windows(seasons: list[Season], asked: EventDates, file: str = "t") -> Windows:
    """The windows that an event asks for among the matches of these seasons."""
    return choose_windows(matches_of(seasons), seasons, asked, file)
