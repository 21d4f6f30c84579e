"""What the panels of a comparison share: where the columns stand, and how ticks are written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from pipeline.charts.canvas import Canvas, font, points
from pipeline.wording import numbers

View = dict[str, Any]


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


def style_ticks(canvas: Canvas, axes: Any, pattern: str = "{}") -> None:
    ticks = [tick for tick in axes.get_xticks() if axes.get_xlim()[0] <= tick <= axes.get_xlim()[1]]
    steps = np.diff(ticks)
    decimals = 0 if not len(steps) else max(0, int(np.ceil(-np.log10(steps.min()) - 1e-9)))
    words = [_tick_word(tick, decimals, pattern) for tick in ticks]
    axes.set_xticks(ticks, words, fontproperties=font("Medium"), color=canvas.theme.muted)
    for label in axes.get_xticklabels():
        label.set_fontsize(points(canvas.sizes.small))
        label.set_fontfeatures(["tnum"])


def _tick_word(tick: float, decimals: int, pattern: str) -> str:
    """'10%', '1 pt', '2 pts'; zero needs no unit."""
    if not tick and pattern != "{}":
        return "0"
    word = pattern.format(numbers.shown(tick, decimals))
    return word.removesuffix("s") if abs(tick) == 1 else word


def legend(canvas: Canvas, sides: tuple[str, str], left: float, y: float) -> None:
    """Names of the two sides with their marks, hollow and solid."""
    theme, sizes = canvas.theme, canvas.sizes
    x = left
    for name, colour, fill in (
        (sides[0], theme.first, theme.ground),
        (sides[1], theme.second, theme.second),
    ):
        axes = canvas.axes(x, y - sizes.small, sizes.mark * 3, sizes.small * 1.2)
        axes.set(xlim=(-1, 1), ylim=(-1, 1), xticks=[], yticks=[])
        axes.plot(
            [0],
            [-0.1],
            marker="o",
            markersize=points(sizes.mark * 2),
            markerfacecolor=fill,
            markeredgecolor=colour,
            markeredgewidth=points(sizes.mark * 0.42),
        )
        text_left = x + sizes.mark * 3.4
        canvas.text(text_left, y, name, sizes.small, "SemiBold", colour)
        x = text_left + canvas.text_width(name, sizes.small, "SemiBold") + sizes.body


def few_ticks(low: float, high: float) -> list[float]:
    """Zero and one round number on the longer side."""
    reach = high if high >= -low else low
    if not reach:
        return [0.0]
    size = 10 ** np.floor(np.log10(abs(reach)))
    step = max(size * digit for digit in (1, 2, 5) if size * digit <= abs(reach))
    return sorted({0.0, float(np.sign(reach) * step)})
