"""Seasons, windows and events of an invented competition, as the stages are given them."""

from __future__ import annotations

from datetime import date

from pipeline.config.fields import Window
from pipeline.config.views import EventDates
from pipeline.contracts.selection import BeatSelection, Holdings, Season, Selection, Windows


def season(year: int) -> Season:
    """A summer's season of forty matches."""
    return Season(label=str(year), first=date(year, 4, 1), last=date(year, 9, 30), matches=40)


def windows(before: list[str], after: list[str], transition: str | None = None) -> Windows:
    return Windows(before=before, after=after, transition=transition)


def event(
    day: str, before: dict | None = None, after: dict | None = None, trend_from: str | None = None
) -> EventDates:
    """An event with its windows as a topic's file has them: two seasons unless they are given."""
    two = {"seasons": 2}
    return EventDates(
        date=date.fromisoformat(day),
        before=Window(**before or two),
        after=Window(**after or two),
        trend_from=trend_from,
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
        windows=chosen,
        newcomers=None,
        beats=beats or {},
    )
