"""Colours and sizes of a frame. Shape says what colour says: before hollow, after solid."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any


@dataclass(frozen=True)
class Theme:
    """Colours on one ground; `plate` is set for a transparent frame: (opacity, corner)."""

    ground: str
    ink: str
    muted: str
    hairline: str
    first: str
    second: str
    plate: tuple[float, float] | None = None


@dataclass(frozen=True)
class Sizes:
    """Text and marks in pixels of the canvas they are drawn on."""

    title: float
    subtitle: float
    body: float
    small: float
    number: float
    mark: float
    row: float


FRAME = Sizes(title=60, subtitle=44, body=44, small=42, number=50, mark=13, row=76)
PAGE = Sizes(title=0, subtitle=0, body=33, small=29, number=34, mark=10, row=55)


def theme_of(declared: dict[str, Any], name: str) -> Theme:
    """'light', 'dark' or 'clear' of the declared theme."""
    plate = declared["plate"]
    if name == "clear":
        return Theme(**declared[plate["of"]], plate=(plate["opacity"], plate["corner"]))
    return Theme(**declared[name])


def sized(sizes: Sizes, declared: dict[str, Any]) -> Sizes:
    """Marks and lines as wide as the theme wants them."""
    return replace(sizes, mark=sizes.mark * declared["lines"])
