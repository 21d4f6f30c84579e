"""The theme of the charts: colours that can be told and read, fonts, lines, a logo."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints, model_validator

from pipeline.config.fields import Strict

Colour = Annotated[str, StringConstraints(pattern=r"^#[0-9A-Fa-f]{6}$")]
TEXT, MARKS = 4.5, 3.0  # WCAG 2.2, success criteria 1.4.3 and 1.4.11


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.2; threshold 0.04045)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """From 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def blended(colour: str, opacity: float, behind: str) -> str:
    """A colour seen through itself onto another (straight alpha)."""
    mixed = [
        round(opacity * int(colour[at : at + 2], 16) + (1 - opacity) * int(behind[at : at + 2], 16))
        for at in (1, 3, 5)
    ]
    return "#" + "".join(f"{part:02X}" for part in mixed)


class Palette(Strict):
    """Colours on one ground: text in ink and muted, the two sides in first and second."""

    ground: Colour = Field(description="behind everything")
    ink: Colour = Field(description="titles, labels and numbers")
    muted: Colour = Field(description="axes, notes and credits")
    hairline: Colour = Field(description="lines of the grid")
    first: Colour = Field(description="before the event, or the first group")
    second: Colour = Field(description="after the event, or the second group")

    @model_validator(mode="after")
    def _readable(self) -> Palette:
        unreadable(self, self.ground)
        return self


def unreadable(palette: Palette, ground: str) -> None:
    """Raise ValueError for a colour of text that can't be read on the ground."""
    for name in ("ink", "muted", "first", "second"):
        found = contrast(getattr(palette, name), ground)
        if found < TEXT:
            raise ValueError(
                f"'{name}' on {ground} has a contrast of {found:.2f}; text needs {TEXT} to 1"
            )


class Plate(Strict):
    """What stands behind a transparent frame."""

    of: Literal["light", "dark"] = Field("dark", description="whose colours the frame has")
    opacity: float = Field(0.94, gt=0, le=1, description="1 lets nothing of the picture through")
    corner: float = Field(28, ge=0, le=200, description="radius of its corners, in pixels at 1080")


class Fonts(Strict):
    """One TrueType file a weight; figures of one width."""

    Medium: str = Field(description="file for notes and axes, relative to the project")
    SemiBold: str = Field(description="file for labels and numbers")
    ExtraBold: str = Field(description="file for titles")


class Theme(Strict):
    """config/theme.yaml."""

    light: Palette = Field(description="colours of light frames, and of the brief's charts")
    dark: Palette = Field(description="colours of dark frames")
    plate: Plate = Field(Plate(), description="what stands behind a transparent frame")
    fonts: Fonts = Field(description="TrueType files of the charts' three weights")
    lines: float = Field(
        1.0, ge=0.5, le=2, description="widths of lines and sizes of marks, times this"
    )
    logo: str | None = Field(
        None, description="a PNG of at most 4,000 pixels a side; drawn at the foot on the right"
    )

    @model_validator(mode="after")
    def _plate_readable_on_anything(self) -> Theme:
        palette = self.light if self.plate.of == "light" else self.dark
        for behind in ("#000000", "#FFFFFF"):
            unreadable(palette, blended(palette.ground, self.plate.opacity, behind))
        return self
