"""One place where figures are laid out in pixels and one function that saves every one of them.

A frame is 1920x1080 with its text inside the graphics-safe area (5 % a side: EBU R 95); at 4K the
same figure is saved at twice the density. The vector chart for the brief drops the title, since
the page has it, and is only as high as it needs to be.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import matplotlib
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.text import Text

from pipeline.charts.faces import DPI, FACES, font, points, renderer_of, width_of
from pipeline.charts.theme import Sizes, Theme
from pipeline.errors import write_atomically
from pipeline.terminal import harmless

if TYPE_CHECKING:
    from matplotlib.typing import RcKeyType

HINTED = 0.985  # letters are set on whole pixels, so a smaller size is not quite as much narrower
LEAST = 30  # pixels of a frame's smallest text at 1080
# Fixed ids and no date, so that the same chart has the same bytes.
STABLE: dict[RcKeyType, Any] = {
    "svg.hashsalt": "good-length",
    "svg.fonttype": "path",
    "path.simplify": False,
}


@dataclass
class Canvas:
    """A figure measured in pixels from its top left corner."""

    width: int
    height: int
    theme: Theme
    sizes: Sizes
    texts: list[Text] = field(default_factory=list)
    steps: dict[Artist, int] = field(default_factory=dict)
    seen: dict[Artist, bool] = field(default_factory=dict)

    def __post_init__(self) -> None:
        size = (self.width / DPI, self.height / DPI)
        ground = "none" if self.theme.plate else self.theme.ground
        self.figure = Figure(figsize=size, dpi=DPI, facecolor=ground)
        self.renderer = renderer_of(self.figure)

    @contextmanager
    def step(self, number: int) -> Iterator[None]:
        """What is drawn inside comes with this step of the build."""
        before = set(self.figure.findobj())
        yield
        for artist in self.figure.findobj():
            if artist not in before:
                self.steps.setdefault(artist, number)

    def show(self, step: int) -> None:
        """Show what has come by this step; nothing else is changed."""
        for artist, comes in self.steps.items():
            self.seen.setdefault(artist, artist.get_visible())  # what is never seen stays unseen
            artist.set_visible(comes <= step and self.seen[artist])

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
            harmless(words),
            fontproperties=font(weight),
            fontsize=points(size),
            color=colour or self.theme.ink,
            ha=align,
            va=vertical,
        )
        drawn.set_fontfeatures(["tnum"])
        drawn.set_parse_math(False)
        self.texts.append(drawn)
        return drawn

    def sentence(self, words: str, left: float, top: float) -> None:
        """What stands where there is nothing to draw."""
        self.text(left, top + self.sizes.body, words, self.sizes.body)

    def text_width(self, words: str, size: float, weight: str = "Medium") -> float:
        """Pixels that the words would take."""
        return width_of(words, size, FACES[weight])

    def fitted(self, words: str, size: float, weight: str, room: float) -> float:
        """The size at which the words fit the room: asked for, or smaller."""
        width = self.text_width(words, size, weight)
        return size if width <= room else size * room / width * HINTED

    def fit(self, words: str, size: float, weight: str, room: float) -> tuple[str, float]:
        """The words and a size at which they fit: smaller while it can be read, then cut short."""
        least = min(size, LEAST if self.sizes.title else size * 0.75)
        found = self.fitted(words, size, weight, room)
        if found >= least:
            return words, found
        return self.shortened(words, least, weight, room), least

    def shortened(self, words: str, size: float, weight: str, room: float) -> str:
        """As many of the letters as fit, with an ellipsis where some don't."""
        if self.text_width(words, size, weight) <= room:
            return words
        low, high = 0, len(words)
        while low < high:
            middle = (low + high + 1) // 2
            cut = words[:middle].rstrip() + "…"
            if self.text_width(cut, size, weight) <= room:
                low = middle
            else:
                high = middle - 1
        return words[:low].rstrip() + "…"

    def wrapped(self, words: str, size: float, weight: str, room: float, most: int) -> list[str]:
        """The words on as few lines as they need; what goes beyond `most` lines is cut short."""
        lines: list[str] = []
        current = ""
        for word in words.split():
            trial = f"{current} {word}".strip()
            if not current or self.text_width(trial, size, weight) <= room:
                current = trial
            else:
                lines.append(current)
                current = word
        lines.append(current)
        if len(lines) > most:
            lines = [*lines[: most - 1], " ".join(lines[most - 1 :])]
        return [self.shortened(line, size, weight, room) for line in lines]


def save(canvas: Canvas, path: Path, times: int = 1) -> None:
    """Write a figure, PNG or SVG by its suffix: exact size, same bytes for the same chart.

    `times` is 2 for 4K: twice the pixels of the same figure.
    """
    kind = path.suffix.removeprefix(".")
    metadata = {"svg": {"Date": None, "Creator": None}, "png": {"Software": None}}[kind]
    out = io.BytesIO()
    with matplotlib.rc_context(STABLE):
        canvas.figure.savefig(out, format=kind, dpi=DPI * times, metadata=metadata)
    write_atomically(path, out.getvalue())
