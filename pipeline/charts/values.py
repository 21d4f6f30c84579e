"""The left panel of a comparison: both values of each row, hollow and solid."""

from __future__ import annotations

from typing import Any

from matplotlib.ticker import MaxNLocator

from pipeline.charts.canvas import Canvas, font, points
from pipeline.charts.panel import Columns, View, legend, style_ticks
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
) -> None:
    theme, sizes = canvas.theme, canvas.sizes
    axes = canvas.axes(columns.values_left, top, columns.values, height)
    values = [row[side]["value"] for row in rows for side in ("a", "b")]
    known = [value for value in values if value is not None]
    _limit(canvas, axes, known, rows, columns.values)
    axes.set_ylim(len(rows), 0)
    axes.set_yticks([])
    axes.grid(axis="x", color=theme.hairline, linewidth=2)
    axes.set_axisbelow(True)
    style_ticks(canvas, axes)
    for position, row in enumerate(rows):
        _draw_pair(canvas, axes, row, position + 0.5)
    legend(canvas, sides, columns.values_left, legend_top + sizes.body)


def _limit(canvas: Canvas, axes: Any, values: list[float], rows: list[View], width: float) -> None:
    """Room at both ends for the numbers written beside the marks."""
    if not values:
        axes.set_xlim(0, 1)
        return
    low, high = min(values), max(values)
    spread = max(high - low, abs(high) * LEAST_SPAN) or 1.0
    low, high = (low + high - spread) / 2, (low + high + spread) / 2
    label = max(
        canvas.text_width(numbers.shown(value, rows[0]["decimals"]), canvas.sizes.small, "SemiBold")
        for value in values
    )
    room = (label + canvas.sizes.mark * 3.5) / width
    scale = spread / max(1 - 2 * room, 0.2)
    axes.set_xlim(low - room * scale, high + room * scale)
    axes.xaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10]))


def _draw_pair(canvas: Canvas, axes: Any, row: View, y: float) -> None:
    """Hollow for the first side, solid for the second, a bar between, a number on each outside."""
    theme, sizes = canvas.theme, canvas.sizes
    a, b = row["a"]["value"], row["b"]["value"]
    if a is not None and b is not None:
        axes.plot([a, b], [y, y], color=theme.hairline, linewidth=points(sizes.mark), zorder=1)
    marks = ((a, theme.first, "none", 2), (b, theme.second, theme.second, 3))
    for value, colour, face, order in marks:
        if value is None:
            continue
        fill = theme.ground if face == "none" else face
        axes.plot(
            [value],
            [y],
            marker="o",
            markersize=points(sizes.mark * 2),
            markerfacecolor=fill,
            markeredgecolor=colour,
            markeredgewidth=points(sizes.mark * 0.42),
            zorder=order,
        )
        other = b if colour == theme.first else a
        lower = other is None or value < other or (value == other and colour == theme.first)
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
