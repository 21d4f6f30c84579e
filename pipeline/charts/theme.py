"""Colours and sizes of a frame. Shape says what colour says: before hollow, after solid."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pipeline.config.theme import Theme as Declared


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


def theme_of(declared: Declared, name: str) -> Theme:
    """'light', 'dark' or 'clear' of the declared theme."""
    palettes = {"light": declared.light, "dark": declared.dark}
    if name == "clear":
        plate = declared.plate
        colours = palettes[plate.of].model_dump()
        return Theme(**colours, plate=(plate.opacity, plate.corner))
    return Theme(**palettes[name].model_dump())


def sized(sizes: Sizes, declared: Declared) -> Sizes:
    """Marks and lines as wide as the theme wants them."""
    return replace(sizes, mark=sizes.mark * declared.lines)
