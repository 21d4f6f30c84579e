"""turning_point: the series with the data's own date, its interval and the level on each side."""

from __future__ import annotations

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.events import Event, events_inside
from pipeline.charts.marks import line
from pipeline.charts.series import (
    Split,
    described,
    draw_series,
    left_out,
    page_height,
    rows,
    split_of,
)
from pipeline.contracts.finding import Turn
from pipeline.contracts.findings import Point
from pipeline.contracts.parts import TurningDate

__all__ = ["described", "draw", "left_out", "page_height", "rows"]
FOUND = "the data’s own date"


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """The series on both sides of the date; without one, the windows of the topic."""
    series, decimals = chart.points, chart.measure.decimals
    events = events_inside(around.dates, series)
    finding = next((finding for finding in chart.findings if isinstance(finding, Turn)), None)
    turn = finding.turn if finding else None
    if finding is None or turn is None:
        split = split_of(around.windows)
        draw_series(canvas, series, split, events, decimals, box, None, around.blind)
        return
    if finding.verdict == "changed":
        events.append(Event(FOUND, _place(series, turn), found=True))

    def draw_over(axes: Axes) -> None:
        _draw_turn(canvas, axes, series, turn)

    split = _sides(series, turn)
    draw_series(canvas, series, split, events, decimals, box, draw_over, around.blind)


def _labels(series: list[Point]) -> list[str]:
    return [point.label for point in series]


def _sides(series: list[Point], turn: TurningDate) -> Split:
    """The points on either side of the data's own date."""
    labels = _labels(series)
    at = labels.index(turn.next)
    return Split(labels[:at], labels[at:])


def _place(series: list[Point], turn: TurningDate) -> float:
    """Where the data's own date falls among the points."""
    return _labels(series).index(turn.last) + 0.5


def _draw_turn(canvas: Canvas, axes: Axes, series: list[Point], turn: TurningDate) -> None:
    """Shade the interval, draw the fitted level on each side."""
    theme, labels = canvas.theme, _labels(series)
    low, high = (labels.index(name) + 0.5 for name in (turn.low, turn.high))
    axes.axvspan(low - 0.25, high + 0.25, color=theme.hairline, linewidth=0, zorder=0)
    fitted = dict(turn.fit)
    sides = _sides(series, turn)
    for side, colour in ((sides.before, theme.first), (sides.after, theme.second)):
        told = [label for label in side if label in fitted]
        places = [labels.index(label) for label in told]
        line(canvas, axes, places, [fitted[label] for label in told], colour, width=0.3)
