"""Two sides of a comparison: both values on the left, the change with its interval on the right."""

from __future__ import annotations

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.change_panel import draw_changes
from pipeline.charts.marks import Columns, View
from pipeline.charts.value_panel import draw_values, values_need
from pipeline.charts.words import effect

HEAD, FOOT = 2.0, 1.9  # lines of body and small text above and below the rows
MOST_ROWS = 8  # more are left to the table, and the chart says so
NAMES = 0.30  # of the width, at most, for the names of the rows
LEAST_NAMES = 140  # pixels that they keep in any case
VALUES = 0.62  # of what the names and numbers leave, for the values; the rest for the changes


def draw_comparison(
    canvas: Canvas, rows: list[View], names: list[str], sides: tuple[str, str], box: Box
) -> None:
    """Draw the rows into a rectangle of pixels. `rows` are findings with `decimals`."""
    sizes = canvas.sizes
    body_top = box.top + sizes.body * HEAD
    room = box.height - sizes.body * HEAD - sizes.small * FOOT
    step = min(room / len(rows), 2 * sizes.row)
    height = step * len(rows)
    middle = [body_top + step * (i + 0.5) for i in range(len(rows))]
    gap = sizes.body * 0.9
    number_width = max(sum(_number_widths(canvas, row)) for row in rows) + gap * 0.4
    room = box.width - number_width - 3 * gap - values_need(canvas, rows) / VALUES
    name_room = max(LEAST_NAMES, min(NAMES * box.width, room))
    said = [canvas.fit(name, sizes.body, "Medium", name_room) for name in names]
    name_width = max(canvas.text_width(name, size) for name, size in said)
    rest = box.width - name_width - number_width - 3 * gap
    columns = Columns(box.left, name_width, rest * VALUES, rest * (1 - VALUES), number_width, gap)
    with canvas.step(1):
        for y, (name, size) in zip(middle, said, strict=True):
            canvas.text(box.left, y, name, size, vertical="center_baseline")
    edge = draw_values(canvas, rows, columns, body_top, height, sides, box.top)
    with canvas.step(4):
        draw_changes(canvas, rows, columns, body_top, height, middle, box.top, edge)


def _number_widths(canvas: Canvas, row: View) -> tuple[float, float]:
    change, interval = effect(row)
    return (
        canvas.text_width(change, canvas.sizes.number, "ExtraBold") if change else 0.0,
        canvas.text_width(interval, canvas.sizes.small),
    )
