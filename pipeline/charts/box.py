"""A rectangle of pixels to draw into."""

from __future__ import annotations

from typing import NamedTuple


class Box(NamedTuple):
    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.left + self.width
