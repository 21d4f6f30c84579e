"""groups: a row a cell, the value of each group and the gap between them."""

from __future__ import annotations

from pipeline.charts import comparison
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.comparison import described, left_out, page_height, rows

__all__ = ["described", "draw", "left_out", "page_height", "rows"]


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    comparison.draw(canvas, chart, around, box, what="gap")
