"""Which periods a drift is taken from, and on which side of the event each lies."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from pipeline.config.when import is_day
from pipeline.contracts.timing import Period

if TYPE_CHECKING:
    from pipeline.config.event_views import EventDates
    from pipeline.contracts.selection import Season


def in_the_fit(
    periods: Sequence[Period], seasons: Sequence[Season], event: EventDates
) -> list[Period]:
    """Those from the trend's start on, without short ends and without what the event falls in."""
    start = trend_start(seasons, event)
    return [
        one
        for one in periods
        if not one.part
        and (start is None or one.first >= start)
        and (one.last < event.date or one.first >= event.settled)
    ]


def trend_start(seasons: Sequence[Season], event: EventDates) -> date | None:
    """The day that the trend begins on; none where it takes all there is."""
    first = event.trend_from
    if first is None or is_day(first):
        return date.fromisoformat(first) if first else None
    return next((one.first for one in seasons if one.label == first), None)
