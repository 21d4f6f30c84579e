"""How a beat that is about another event says so, where the topic's own would be understood."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat


def now(line: str, beat: AnyBeat, event: NamedEvent | None) -> str:
    """A line that stands alone, or opens its beat: 'Now the drinks break. Economy held.'"""
    link = opened(beat, event)
    return f"{link} {line}" if link else line


def opened(beat: AnyBeat, event: NamedEvent | None) -> str:
    """The same alone: 'Now the drinks break.'; '' of a beat about the topic's own event."""
    return f"Now {event.name}." if beat.about and event else ""


def marked(name: str, beat: AnyBeat, event: NamedEvent | None) -> str:
    """A heading, a title or a name: 'Economy held (the drinks break)'."""
    return f"{name} ({event.name})" if beat.about and event else name
