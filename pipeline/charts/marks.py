"""What the panels of a comparison share: where the columns stand, legends, and ticks that fit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.lines import Line2D
from matplotlib.text import Text

from pipeline.charts.canvas import Canvas
from pipeline.charts.faces import font, points
from pipeline.wording import numbers

Dash = str | tuple[float, Sequence[float]]
APART = 16  # pixels between two tick labels, at least


@dataclass(frozen=True)
class Columns:
    """Left edges and widths in pixels: names, values, changes, numbers."""

    left: float
    names: float
    values: float
    changes: float
    numbers: float
    gap: float

    @property
    def values_left(self) -> float:
        return self.left + self.names + self.gap

    @property
    def changes_left(self) -> float:
        return self.values_left + self.values + self.gap

    @property
    def numbers_left(self) -> float:
        return self.changes_left + self.changes + self.gap


def mark(
    canvas: Canvas,
    axes: Axes,
    x: float,
    y: float,
    colour: str,
    solid: bool,
    shape: str = "o",
    size: float = 2.0,
    order: int = 3,
) -> None:
    """A round mark: hollow for the first side, solid for the second."""
    axes.plot(
        [x],
        [y],
        marker=shape,
        markersize=points(canvas.sizes.mark * size),
        markerfacecolor=colour if solid else canvas.theme.ground,
        markeredgecolor=colour,
        markeredgewidth=points(canvas.sizes.mark * 0.4),
        zorder=order,
    )


def line(
    canvas: Canvas,
    axes: Axes,
    x: Sequence[float],
    y: Sequence[float],
    colour: str,
    width: float = 0.4,
    dash: Dash = "-",
    order: int = 2,
) -> None:
    """A line whose width follows the theme."""
    axes.plot(
        x,
        y,
        color=colour,
        linewidth=points(canvas.sizes.mark * width),
        linestyle=dash,
        zorder=order,
    )


def few_ticks(low: float, high: float) -> list[float]:
    """Zero and one round number on the longer side."""
    reach = high if high >= -low else low
    if not reach:
        return [0.0]
    size = 10 ** np.floor(np.log10(abs(reach)))
    step = max(size * digit for digit in (1, 2, 5) if size * digit <= abs(reach))
    return sorted({0.0, float(np.sign(reach) * step)})


def style_ticks(canvas: Canvas, axes: Axes, pattern: str = "{}") -> None:
    """Tick labels of the axis along the bottom: in the theme's face, as many as fit."""
    low, high = sorted(axes.get_xlim())
    ticks = [float(tick) for tick in axes.get_xticks() if low <= tick <= high]
    steps = np.diff(ticks)
    decimals = 0 if not len(steps) else max(0, int(np.ceil(-np.log10(steps.min()) - 1e-9)))
    words = [_tick_word(tick, decimals, pattern) for tick in ticks]
    width = axes.get_window_extent(canvas.renderer).width
    place = [(tick - low) / (high - low) * width for tick in ticks]
    kept = thinned(canvas, place, words, keep=ticks.index(0.0) if 0.0 in ticks else None)
    wide = [canvas.text_width(word, canvas.sizes.small) / 2 - APART / 2 for word in words]
    kept = [at for at in kept if wide[at] <= place[at] <= width - wide[at] or not ticks[at]]
    axes.set_xticks([ticks[at] for at in kept], [words[at] for at in kept])
    dress(canvas, axes.get_xticklabels())


def thinned(
    canvas: Canvas, place: list[float], words: list[str], keep: int | None = None
) -> list[int]:
    """Which of the labels, centred at these pixels, can stand without touching; `keep` stands."""
    widths = [canvas.text_width(word, canvas.sizes.small) for word in words]
    kept: list[int] = [] if keep is None else [keep]
    for at in range(len(words)):
        clear = all(
            abs(place[at] - place[other]) >= (widths[at] + widths[other]) / 2 + APART
            for other in kept
        )
        if at not in kept and clear:
            kept.append(at)
    return sorted(kept)


def dress(canvas: Canvas, labels: Iterable[Text]) -> None:
    """Tick labels in the theme's face, size and colour, with figures of one width."""
    for label in labels:
        label.set_fontproperties(font("Medium"))
        label.set_fontsize(points(canvas.sizes.small))
        label.set_color(canvas.theme.muted)
        label.set_fontfeatures(["tnum"])
        label.set_parse_math(False)


def value_ticks(canvas: Canvas, axes: Axes) -> list[float]:
    """Ticks of an upright axis, but for one so low that its label would reach those below it."""
    low, high = axes.get_ylim()
    pixels = axes.get_window_extent(canvas.renderer).height
    lowest = low + canvas.sizes.small * 0.6 * (high - low) / pixels
    return [float(tick) for tick in axes.get_yticks() if lowest <= tick <= high]


def _tick_word(tick: float, decimals: int, pattern: str) -> str:
    """'10%', '1 pt', '2 pts'; zero needs no unit."""
    if not tick and pattern != "{}":
        return "0"
    word = pattern.format(numbers.shown(tick, decimals))
    return word.removesuffix("s") if abs(tick) == 1 else word


def key(canvas: Canvas, x: float, y: float, colour: str, solid: bool, shape: str = "o") -> None:
    """A mark at a pixel of the figure, as the marks in the axes are."""
    canvas.figure.add_artist(
        Line2D(
            [x / canvas.width],
            [1 - y / canvas.height],
            marker=shape,
            markersize=points(canvas.sizes.mark * (2.0 if shape == "o" else 1.5)),
            markerfacecolor=colour if solid else canvas.theme.ground,
            markeredgecolor=colour,
            markeredgewidth=points(canvas.sizes.mark * 0.4),
        )
    )


def legend(canvas: Canvas, sides: tuple[str, str], left: float, y: float, room: float) -> float:
    """Names of the two sides with their marks, hollow and solid; the right edge of the last."""
    theme, sizes = canvas.theme, canvas.sizes
    each = room / 2 - sizes.mark * 3.4 - sizes.body
    x = left
    for name, colour, solid in ((sides[0], theme.first, False), (sides[1], theme.second, True)):
        key(canvas, x + sizes.mark * 1.5, y - sizes.small * 0.34, colour, solid)
        text_left = x + sizes.mark * 3.4
        said = canvas.shortened(name, sizes.small, "SemiBold", each)
        canvas.text(text_left, y, said, sizes.small, "SemiBold", colour)
        x = text_left + canvas.text_width(said, sizes.small, "SemiBold") + sizes.body
    return x - sizes.body
