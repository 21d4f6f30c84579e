"""The events that the beats of a topic are about, each with what it makes of time."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.findings import Findings
from pipeline.contracts.timing import Timing, Windows

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.views import BriefView


class Used(NamedTuple):
    """An event, its timing and its windows, and the ids of the beats that are about it."""

    event: NamedEvent
    timing: Timing
    windows: Windows
    beats: list[str]


def used_events(view: BriefView, findings: Findings) -> list[Used]:
    """Of beats that compare in time; in the order of the topic's file, its own event first."""
    found = []
    for about in (None, *view.others):
        event = view.others[about] if about else view.event
        timing = findings.timing_of(about)
        timed = [beat for beat in view.beats if beat.traits.compares != "groups"]
        beats = [beat.id for beat in timed if beat.about == about]
        if event and timing.windows and beats:
            found.append(Used(event, timing, timing.windows, beats))
    return found
