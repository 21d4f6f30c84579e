"""Two sides of a comparison: both values on the left, the change with its interval on the right."""

from __future__ import annotations

from pipeline.charts.canvas import Canvas
from pipeline.charts.changes import draw_changes
from pipeline.charts.panel import Columns, View
from pipeline.charts.values import draw_values
from pipeline.charts.words import effect

HEAD, FOOT = 2.0, 1.9  # lines of body and small text above and below the rows
MOST_ROWS = 8  # more are left to the table, and the chart says so


def draw_comparison(
    canvas: Canvas,
    rows: list[View],
    names: list[str],
    sides: tuple[str, str],
    left: float,
    top: float,
    width: float,
    height: float,
) -> None:
    """Draw the rows into a rectangle of pixels. `rows` are findings with `decimals`."""
    sizes = canvas.sizes
    columns = _columns(canvas, rows, names, left, width)
    body_top = top + sizes.body * HEAD
    step = min((height - sizes.body * HEAD - sizes.small * FOOT) / len(rows), 2 * sizes.row)
    height = step * len(rows)
    middle = [body_top + step * (i + 0.5) for i in range(len(rows))]
    for y, name in zip(middle, names, strict=True):
        canvas.text(left, y, name, sizes.body, vertical="center_baseline")
    draw_values(canvas, rows, columns, body_top, height, sides, top)
    draw_changes(canvas, rows, columns, body_top, height, middle, top)


def _columns(
    canvas: Canvas, rows: list[View], names: list[str], left: float, width: float
) -> Columns:
    sizes = canvas.sizes
    gap = sizes.body * 0.9
    name_width = max(canvas.text_width(name, sizes.body) for name in names)
    number_width = max(sum(_number_widths(canvas, row)) for row in rows) + gap * 0.4
    rest = width - name_width - number_width - 3 * gap
    return Columns(left, name_width, rest * 0.62, rest * 0.38, number_width, gap)


def _number_widths(canvas: Canvas, row: View) -> tuple[float, float]:
    change, interval = effect(row)
    return (
        canvas.text_width(change, canvas.sizes.number, "ExtraBold") if change else 0.0,
        canvas.text_width(interval, canvas.sizes.small),
    )
