"""The right panel of a comparison: each change with its interval, drawn and written."""

from __future__ import annotations

from matplotlib.axes import Axes

from pipeline.charts.canvas import Canvas
from pipeline.charts.marks import Columns, few_ticks, line, mark, style_ticks
from pipeline.charts.rows import Comparison, Row
from pipeline.wording.shown_numbers import BEFORE_ROUNDING


def draw_changes(
    canvas: Canvas,
    told: Comparison,
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
    changes = [row.change for row in told.rows if row.change]
    ends = [end for change in changes for end in (change.low, change.high)]
    low, high = min([*ends, 0.0]), max([*ends, 0.0])
    pad = ((high - low) or 1.0) * 0.06
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(len(told.rows), 0)
    axes.set_yticks([])
    axes.set_xticks(few_ticks(low, high))
    style_ticks(canvas, axes, "{} pts" if told.share else "{}%")
    axes.axvline(0, color=theme.ink, linewidth=2)
    for position, (row, y) in enumerate(zip(told.rows, middle, strict=True)):
        _draw_change(canvas, axes, row, position + 0.5)
        _write_change(canvas, row, columns, y)
    right = columns.numbers_left + columns.numbers
    if told.looks:
        y = top + height + sizes.small
        canvas.text(right, y, told.looks, sizes.small, colour=theme.muted, align="right")
    under = f" · {BEFORE_ROUNDING}" if any(row.mark for row in told.rows) else ""
    headings = [f"{told.what}, with {told.interval}", told.interval, ""]
    for words in (f"{heading}{under}".removeprefix(" · ") for heading in headings):
        if canvas.text_width(words, sizes.small) <= right - legend_edge - sizes.body:
            y = heading_top + sizes.body
            canvas.text(right, y, words, sizes.small, colour=theme.muted, align="right")
            return


def _draw_change(canvas: Canvas, axes: Axes, row: Row, y: float) -> None:
    if row.change is None:
        return
    colour = canvas.theme.second if row.moved else canvas.theme.muted
    line(canvas, axes, [row.change.low, row.change.high], [y, y], colour, width=0.45)
    mark(canvas, axes, row.change.value, y, colour, solid=row.moved, shape="D", size=1.5)


def _write_change(canvas: Canvas, row: Row, columns: Columns, y: float) -> None:
    right, sizes = columns.numbers_left + columns.numbers, canvas.sizes
    if row.change_shown:
        canvas.text(
            columns.numbers_left,
            y,
            row.change_shown + row.mark,
            sizes.number,
            "ExtraBold",
            vertical="center_baseline",
        )
    canvas.text(
        right,
        y,
        row.interval_marked,
        sizes.small,
        colour=canvas.theme.muted,
        align="right",
        vertical="center_baseline",
    )
