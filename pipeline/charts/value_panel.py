"""The left panel of a comparison: both values of each row, hollow and solid."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from pipeline.charts.canvas import Canvas
from pipeline.charts.faces import font, points
from pipeline.charts.marks import Columns, legend, line, mark, style_ticks
from pipeline.charts.rows import Comparison, Row
from pipeline.wording import numbers

LEAST_SPAN = 0.08  # the axis spans at least this share of the value: no molehill a mountain


def draw_values(
    canvas: Canvas,
    told: Comparison,
    columns: Columns,
    top: float,
    height: float,
    legend_top: float,
) -> float:
    """Draw both values of every row; the right edge of the legend, for what stands beside it."""
    theme, sizes = canvas.theme, canvas.sizes
    with canvas.step(1):
        axes = canvas.axes(columns.values_left, top, columns.values, height)
        _limit(canvas, axes, told, columns.values)
        axes.set_ylim(len(told.rows), 0)
        axes.set_yticks([])
        axes.grid(axis="x", color=theme.hairline, linewidth=2)
        axes.set_axisbelow(True)
        style_ticks(canvas, axes)
        room = columns.values + columns.gap + columns.changes * 0.4
        edge = legend(canvas, told.sides, columns.values_left, legend_top + sizes.body, room)
    with canvas.step(2):
        for at, row in enumerate(told.rows):
            if row.a is not None:
                mark(canvas, axes, row.a, at + 0.5, theme.first, solid=False, order=2)
    with canvas.step(3):
        for at, row in enumerate(told.rows):
            _draw_second(canvas, axes, row, at + 0.5)
    with canvas.step(4):
        for at, row in enumerate(told.rows):
            _label(canvas, axes, row, at + 0.5, told.decimals)
    return edge


def values_need(canvas: Canvas, told: Comparison) -> float:
    """Pixels under which the numbers beside the marks would leave the panel."""
    return 2 * _beside(canvas, told) + 4 * canvas.sizes.mark


def _values(told: Comparison) -> list[float]:
    return [value for row in told.rows for value in (row.a, row.b) if value is not None]


def _beside(canvas: Canvas, told: Comparison) -> float:
    """Room that the widest number takes beside its mark."""
    said = [numbers.shown(value, told.decimals) for value in _values(told)]
    widths = [canvas.text_width(words, canvas.sizes.small, "SemiBold") for words in said]
    return max(widths, default=0.0) + canvas.sizes.mark * 3.5


def _limit(canvas: Canvas, axes: Axes, told: Comparison, width: float) -> None:
    """Room at both ends for the numbers written beside the marks."""
    values = _values(told)
    if not values:
        axes.set_xlim(0, 1)
        return
    low, high = min(values), max(values)
    spread = max(high - low, abs(high) * LEAST_SPAN) or 1.0
    low, high = (low + high - spread) / 2, (low + high + spread) / 2
    room = _beside(canvas, told) / width
    scale = spread / max(1 - 2 * room, 0.02)
    axes.set_xlim(low - room * scale, high + room * scale)
    axes.xaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10]))


def _draw_second(canvas: Canvas, axes: Axes, row: Row, y: float) -> None:
    """The second value, and a bar from the first."""
    if row.a is not None and row.b is not None:
        line(canvas, axes, [row.a, row.b], [y, y], canvas.theme.hairline, width=1.0, order=1)
    if row.b is not None:
        mark(canvas, axes, row.b, y, canvas.theme.second, solid=True)


def _label(canvas: Canvas, axes: Axes, row: Row, y: float, decimals: int) -> None:
    """Each value beside its mark, the lower one to the left."""
    theme, sizes = canvas.theme, canvas.sizes
    a, b = row.a, row.b
    for value, other, colour, first in ((a, b, theme.first, True), (b, a, theme.second, False)):
        if value is None:
            continue
        lower = other is None or value < other or (value == other and first)
        offset = sizes.mark * 1.9 * (-1 if lower else 1)
        label = axes.annotate(
            numbers.shown(value, decimals),
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
