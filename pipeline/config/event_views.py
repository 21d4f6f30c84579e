"""Events as stages see them: when each was, and how much is compared on each side of it."""

from __future__ import annotations

from datetime import date
from typing import Any

from pydantic import BaseModel, ConfigDict, model_validator

from pipeline.config.topic import OtherEvent, Topic
from pipeline.config.when import Gap, Window
from pipeline.contracts.codes import Unit
from pipeline.contracts.timing import SIDES
from pipeline.topic_places import dotted

Day = date  # a field of an event bears the type's name


class View(BaseModel):
    """A part of the configuration, as a stage is given it; values never change."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class EventDates(View):
    """When it happened, and how much is compared on each side.

    `before_at` and `after_at` are where the windows stand in the topic's file; `told` is what a
    problem of another event than the topic's own begins with. `settled` is the first day after its
    settling in, from which the time after it counts.
    """

    before_at: str = "event.before"
    after_at: str = "event.after"
    told: str = ""
    date: date
    before: Window
    after: Window
    trend_from: str | None
    settled: Day
    gap_after: Gap | None = None
    period: Unit | None = None

    @model_validator(mode="before")
    @classmethod
    def _settled_at_once(cls, given: Any) -> Any:
        """In editions of before there was such a time, nothing was left out."""
        if isinstance(given, dict) and "settled" not in given and "date" in given:
            return {**given, "settled": given["date"]}
        return given


class NamedEvent(EventDates):
    name: str


def event_dates(topic: Topic) -> EventDates | None:
    """The topic's own event, where it has one."""
    if topic.event is None:
        return None
    event = topic.event
    return EventDates(
        date=event.date,
        before=event.before,
        after=event.after,
        trend_from=event.trend_from,
        settled=_settled(event.date, event.gap_after),
        gap_after=event.gap_after,
        period=event.period,
    )


def other_events(topic: Topic) -> dict[str, EventDates]:
    """The other events that some beat is about, with the topic's windows where they have none."""
    asked = {beat.about for beat in topic.beats}
    event = event_dates(topic)
    if event is None:
        return {}
    return {
        other.id: event.model_copy(
            update={
                "told": f"for '{other.name}': ",
                "trend_from": None,  # it is the topic's own event's
                **{
                    f"{side}_at": dotted(("also", position, side))
                    for side in SIDES
                    if getattr(other, side)
                },
                "date": other.date,
                "before": other.before or event.before,
                "after": other.after or event.after,
                "settled": _settled(other.date, other.gap_after),
                "gap_after": other.gap_after,
            }
        )
        for position, other in enumerate(topic.also)
        if other.id is not None and other.id in asked
    }


def _settled(day: date, gap: Gap | None) -> date:
    return gap.after(day) if gap else day


def as_other(topic: Topic) -> OtherEvent | None:
    """The topic's own event as the other events are, where some beat is about one of them."""
    if topic.event is None or not other_events(topic):
        return None
    return OtherEvent(name=topic.event.name, date=topic.event.date)
