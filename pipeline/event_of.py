"""The event that a beat is about: the topic's own, or another that it names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Protocol, TypeVar

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind

Event = TypeVar("Event", covariant=True)


class OfEvents(Protocol[Event]):
    """A view that knows the events of its topic."""

    @property
    def event(self) -> Event | None: ...

    @property
    def others(self) -> Mapping[str, Event]: ...


def event_of(view: OfEvents[Event], beat: AnyKind) -> Event | None:
    return view.others[beat.about] if beat.about else view.event
