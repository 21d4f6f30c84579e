"""The right panel of a comparison: each change with its interval, drawn and written."""

from __future__ import annotations

from matplotlib.axes import Axes

from pipeline.charts.canvas import Canvas
from pipeline.charts.marks import Columns, View, few_ticks, line, mark, style_ticks
from pipeline.charts.words import effect


def draw_changes(
    canvas: Canvas,
    rows: list[View],
    columns: Columns,
    top: float,
    height: float,
    middle: list[float],
    heading_top: float,
    legend_edge: float,
) -> None:
    """Draw and write every change; the heading is as long as the legend beside it leaves room."""
    theme, sizes = canvas.theme, canvas.sizes
    axes = canvas.axes(columns.changes_left, top, columns.changes, height)
    share = rows[0]["kind"] == "share"
    name, factor = ("difference", 1.0) if share else ("change", 100.0)
    ends = [
        row[f"{name}{end}"] * factor
        for row in rows
        for end in ("_low", "_high")
        if not row["refused"] and row[f"{name}{end}"] is not None
    ]
    low, high = min([*ends, 0.0]), max([*ends, 0.0])
    pad = ((high - low) or 1.0) * 0.06
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(len(rows), 0)
    axes.set_yticks([])
    axes.set_xticks(few_ticks(low, high))
    style_ticks(canvas, axes, "{} pts" if share else "{}%")
    axes.axvline(0, color=theme.ink, linewidth=2)
    for position, (row, y) in enumerate(zip(rows, middle, strict=True)):
        _draw_change(canvas, axes, row, name, factor, position + 0.5)
        _write_change(canvas, row, columns, y)
    right = columns.numbers_left + columns.numbers
    what = "gap" if rows[0]["about"] == "groups" else "change"
    for words in (f"{what}, with 95% interval", "95% interval"):
        if canvas.text_width(words, sizes.small) <= right - legend_edge - sizes.body:
            y = heading_top + sizes.body
            canvas.text(right, y, words, sizes.small, colour=theme.muted, align="right")
            return


def _draw_change(canvas: Canvas, axes: Axes, row: View, name: str, factor: float, y: float) -> None:
    if row["refused"] or row[name] is None:
        return
    moved = row["verdict"] == "changed"
    colour = canvas.theme.second if moved else canvas.theme.muted
    ends = [row[f"{name}_low"] * factor, row[f"{name}_high"] * factor]
    line(canvas, axes, ends, [y, y], colour, width=0.45)
    mark(canvas, axes, row[name] * factor, y, colour, solid=moved, shape="D", size=1.5)


def _write_change(canvas: Canvas, row: View, columns: Columns, y: float) -> None:
    change, interval = effect(row)
    right, sizes = columns.numbers_left + columns.numbers, canvas.sizes
    if change:
        canvas.text(
            columns.numbers_left, y, change, sizes.number, "ExtraBold", vertical="center_baseline"
        )
    canvas.text(
        right,
        y,
        interval,
        sizes.small,
        colour=canvas.theme.muted,
        align="right",
        vertical="center_baseline",
    )
