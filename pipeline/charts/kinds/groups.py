"""groups: a row a cell, the value of each group and the gap between them."""

from __future__ import annotations

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.comparison import (
    described,
    draw_findings,
    left_out,
    page_height,
    rows,
    sides_of,
)

__all__ = ["described", "draw", "left_out", "page_height", "rows"]


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    sides = sides_of(chart, around.form)
    draw_findings(canvas, chart, rows(chart), sides, around.form, box, "gap")
