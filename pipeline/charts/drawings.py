"""Any chart's drawing, as its beat's kind has it: how it is drawn, how tall, what it leaves out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pipeline.charts import panel_drawn
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.of_kinds import Drawing, drawing_of
from pipeline.contracts.finding import Finding
from pipeline.event_of import event_of

if TYPE_CHECKING:
    from pipeline.config.project import Format
    from pipeline.config.views import ChartsView


def _drawing(chart: Chart) -> Drawing:
    """A headline asked in other ways is drawn alike, whatever its kind."""
    return panel_drawn if chart.again else drawing_of(chart.beat)


def rows_of(chart: Chart) -> Sequence[Finding]:
    """The findings that are drawn, in their order."""
    return _drawing(chart).rows(chart)


def left_out(chart: Chart) -> int:
    """Findings that are rows of the table and not of the drawing."""
    return _drawing(chart).left_out(chart)


def page_height(chart: Chart) -> int:
    """Pixels of the vector chart in the brief."""
    return _drawing(chart).page_height(chart)


def described(chart: Chart, form: Format) -> str:
    """Alternative text: what a reader who can't see the drawing needs."""
    return _drawing(chart).described(chart, form)


def draw(
    canvas: Canvas,
    chart: Chart,
    view: ChartsView,
    box: Box,
    blind: bool = False,
) -> None:
    """The body of the chart; a series may be drawn blind."""
    dates = [(view.event.name, view.event.date)] if view.event else []
    dates += [(event.name, event.date) for event in view.also]
    event = event_of(view, chart.beat)
    around = Around(view.format, dates, event.date if event else None, blind)
    _drawing(chart).draw(canvas, chart, around, box)
