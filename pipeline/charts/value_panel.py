"""The left panel of a comparison: both values of each row, hollow and solid."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from pipeline.charts.canvas import Canvas, font, points
from pipeline.charts.marks import Columns, View, legend, line, mark, style_ticks
from pipeline.wording import numbers

LEAST_SPAN = 0.08  # the axis spans at least this share of the value: no molehill a mountain


def draw_values(
    canvas: Canvas,
    rows: list[View],
    columns: Columns,
    top: float,
    height: float,
    sides: tuple[str, str],
    legend_top: float,
) -> float:
    """Draw both values of every row; the right edge of the legend, for what stands beside it."""
    theme, sizes = canvas.theme, canvas.sizes
    with canvas.step(1):
        axes = canvas.axes(columns.values_left, top, columns.values, height)
        values = [row[side]["value"] for row in rows for side in ("a", "b")]
        known = [value for value in values if value is not None]
        _limit(canvas, axes, known, rows, columns.values)
        axes.set_ylim(len(rows), 0)
        axes.set_yticks([])
        axes.grid(axis="x", color=theme.hairline, linewidth=2)
        axes.set_axisbelow(True)
        style_ticks(canvas, axes)
        room = columns.values + columns.gap + columns.changes * 0.4
        edge = legend(canvas, sides, columns.values_left, legend_top + sizes.body, room)
    with canvas.step(2):
        for at, row in enumerate(rows):
            if row["a"]["value"] is not None:
                mark(canvas, axes, row["a"]["value"], at + 0.5, theme.first, solid=False, order=2)
    with canvas.step(3):
        for at, row in enumerate(rows):
            _draw_second(canvas, axes, row, at + 0.5)
    with canvas.step(4):
        for at, row in enumerate(rows):
            _label(canvas, axes, row, at + 0.5)
    return edge


def values_need(canvas: Canvas, rows: list[View]) -> float:
    """Pixels under which the numbers beside the marks would leave the panel."""
    return 2 * _beside(canvas, rows) + 4 * canvas.sizes.mark


def _beside(canvas: Canvas, rows: list[View]) -> float:
    """Room that the widest number takes beside its mark."""
    values = [row[side]["value"] for row in rows for side in ("a", "b")]
    said = [numbers.shown(v, rows[0]["decimals"]) for v in values if v is not None]
    widths = [canvas.text_width(words, canvas.sizes.small, "SemiBold") for words in said]
    return max(widths, default=0.0) + canvas.sizes.mark * 3.5


def _limit(canvas: Canvas, axes: Axes, values: list[float], rows: list[View], width: float) -> None:
    """Room at both ends for the numbers written beside the marks."""
    if not values:
        axes.set_xlim(0, 1)
        return
    low, high = min(values), max(values)
    spread = max(high - low, abs(high) * LEAST_SPAN) or 1.0
    low, high = (low + high - spread) / 2, (low + high + spread) / 2
    room = _beside(canvas, rows) / width
    scale = spread / max(1 - 2 * room, 0.02)
    axes.set_xlim(low - room * scale, high + room * scale)
    axes.xaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10]))


def _draw_second(canvas: Canvas, axes: Axes, row: View, y: float) -> None:
    """The second value, and a bar from the first."""
    a, b = row["a"]["value"], row["b"]["value"]
    if a is not None and b is not None:
        line(canvas, axes, [a, b], [y, y], canvas.theme.hairline, width=1.0, order=1)
    if b is not None:
        mark(canvas, axes, b, y, canvas.theme.second, solid=True)


def _label(canvas: Canvas, axes: Axes, row: View, y: float) -> None:
    """Each value beside its mark, the lower one to the left."""
    theme, sizes = canvas.theme, canvas.sizes
    a, b = row["a"]["value"], row["b"]["value"]
    for value, other, colour, first in ((a, b, theme.first, True), (b, a, theme.second, False)):
        if value is None:
            continue
        lower = other is None or value < other or (value == other and first)
        offset = sizes.mark * 1.9 * (-1 if lower else 1)
        label = axes.annotate(
            numbers.shown(value, row["decimals"]),
            (value, y),
            xytext=(points(offset), 0),
            textcoords="offset points",
            fontproperties=font("SemiBold"),
            fontsize=points(sizes.small),
            color=colour,
            ha="right" if lower else "left",
            va="center_baseline",
        )
        label.set_fontfeatures(["tnum"])
