"""Where something stands in a topic's file, named as problems name it: beats[3].where.ground."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Protocol

Place = tuple[str | int, ...]  # keys, and positions in lists from nought


class Beat(Protocol):
    """Any beat of a topic; ids are unique."""

    @property
    def id(self) -> str: ...


def dotted(place: Sequence[str | int]) -> str:
    """('beats', 2, 'measure') as 'beats[3].measure': people count from one."""
    text = ""
    for part in place:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{part}"
    return text.lstrip(".")


def place_of(where: str) -> Place:
    """'beats[3].measure' as ('beats', 2, 'measure')."""
    parts = re.findall(r"[^.\[\]]+|\[\d+\]", where)
    return tuple(int(part[1:-1]) - 1 if part.startswith("[") else part for part in parts)


def in_beat(beats: Sequence[Beat], beat: Beat, *more: str | int) -> str:
    """A part of one of the topic's beats; the same beat asked of a control is of its id too."""
    position = [each.id for each in beats].index(beat.id)
    return dotted(("beats", position, *more))
