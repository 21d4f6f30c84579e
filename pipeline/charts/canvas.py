"""One place where figures are laid out in pixels and one function that saves every one of them.

A frame is 1920x1080 with its text inside the graphics-safe area (5 % a side: EBU R 95). The vector
chart for the brief drops the title, since the page has it, and is only as high as it needs to be.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from pathlib import Path

import matplotlib
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.text import Text

from pipeline.charts.theme import Sizes, Theme
from pipeline.errors import write_atomically

FONTS = Path(__file__).parents[2] / "templates" / "fonts"
DPI = 100
# Fixed ids and no date, so that the same chart has the same bytes.
STABLE = {"svg.hashsalt": "good-length", "svg.fonttype": "path", "path.simplify": False}


def font(weight: str) -> FontProperties:
    """A bundled face, by file, so that charts look alike on every machine."""
    return FontProperties(fname=str(FONTS / f"Archivo-{weight}.ttf"))


@dataclass
class Canvas:
    """A figure measured in pixels from its top left corner."""

    width: int
    height: int
    theme: Theme
    sizes: Sizes
    texts: list[Text] = field(default_factory=list)

    def __post_init__(self) -> None:
        size = (self.width / DPI, self.height / DPI)
        self.figure = Figure(figsize=size, dpi=DPI, facecolor=self.theme.ground)
        self.renderer = FigureCanvasAgg(self.figure).get_renderer()

    def axes(self, left: float, top: float, width: float, height: float) -> Axes:
        """Bare axes in a pixel rectangle."""
        box = (
            left / self.width,
            1 - (top + height) / self.height,
            width / self.width,
            height / self.height,
        )
        axes = self.figure.add_axes(box)
        axes.set_facecolor("none")
        axes.tick_params(length=0, pad=8)
        for spine in axes.spines.values():
            spine.set_visible(False)
        return axes

    def text(
        self,
        x: float,
        y: float,
        words: str,
        size: float,
        weight: str = "Medium",
        colour: str | None = None,
        align: str = "left",
        vertical: str = "baseline",
    ) -> Text:
        """Text at a pixel, with figures of one width."""
        drawn = self.figure.text(
            x / self.width,
            1 - y / self.height,
            words,
            fontproperties=font(weight),
            fontsize=points(size),
            color=colour or self.theme.ink,
            ha=align,
            va=vertical,
        )
        drawn.set_fontfeatures(["tnum"])
        self.texts.append(drawn)
        return drawn

    def text_width(self, words: str, size: float, weight: str = "Medium") -> float:
        """Pixels that the words would take."""
        probe = self.text(0, 0, words, size, weight)
        width = probe.get_window_extent(self.renderer).width
        probe.remove()
        self.texts.remove(probe)
        return width

    def fitted(self, words: str, size: float, weight: str, room: float) -> float:
        """The size at which the words fit the room: asked for, or smaller."""
        width = self.text_width(words, size, weight)
        return size if width <= room else size * room / width


def points(pixels: float) -> float:
    """Font sizes are given in pixels and drawn in points: px = pt x dpi / 72."""
    return pixels * 72 / DPI


def save(canvas: Canvas, path: Path) -> None:
    """Write a figure, PNG or SVG by its suffix: exact size, same bytes for the same chart."""
    kind = path.suffix.removeprefix(".")
    metadata = {"svg": {"Date": None, "Creator": None}, "png": {"Software": None}}[kind]
    out = io.BytesIO()
    with matplotlib.rc_context(STABLE):
        canvas.figure.savefig(out, format=kind, dpi=DPI, metadata=metadata)
    write_atomically(path, out.getvalue())
