"""Colours and sizes. Shape always says what colour says: before is hollow, after is solid."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Theme:
    """Contrast on white (WCAG 2.2): ink 16.6, muted 5.6, first 5.2, second 6.0."""

    ground: str = "#FFFFFF"
    ink: str = "#16211C"
    muted: str = "#5C6B63"
    hairline: str = "#DDE3DF"
    first: str = "#7A6A4F"
    second: str = "#B3341F"


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


FRAME = Sizes(title=68, subtitle=44, body=44, small=42, number=50, mark=13, row=76)
PAGE = Sizes(title=0, subtitle=0, body=33, small=29, number=34, mark=10, row=55)
LIGHT = Theme()
