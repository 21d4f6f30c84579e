"""turning_point: the series with the data's own date, its interval and the level on each side."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

from matplotlib.axes import Axes

from pipeline.calendar import middle
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
from pipeline.charts.time_axis import placed, seen
from pipeline.contracts.finding import Turn
from pipeline.contracts.findings import Point
from pipeline.contracts.over_time import TurningDate

__all__ = ["described", "draw", "left_out", "page_height", "rows"]
FOUND = "the data’s own date"
LEAST = 1.5  # marks that the shade of an interval is wide


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """The series on both sides of the date; without one, the windows of the topic."""
    series, decimals = chart.points, chart.measure.decimals
    events = events_inside(around.dates, series)
    finding = next((finding for finding in chart.findings if isinstance(finding, Turn)), None)
    turn = finding.turn if finding else None
    if finding is None or turn is None:
        split = split_of(chart)
        draw_series(canvas, series, split, events, decimals, box, None, around.blind)
        return
    if finding.verdict == "changed":
        events.append(Event(FOUND, _day(series, turn), found=True))

    def draw_over(axes: Axes) -> None:
        _draw_turn(canvas, axes, series, turn)

    split = _sides(series, turn)
    draw_series(canvas, series, split, events, decimals, box, draw_over, around.blind)


def _sides(series: list[Point], turn: TurningDate) -> Split:
    """The points on either side of the data's own date."""
    labels = [point.label for point in series]
    at = labels.index(turn.next)
    return Split(labels[:at], labels[at:])


def between(series: list[Point], last: str, following: str) -> tuple[date, date]:
    """The last day of one point and the first day of another; of two that overlap, in time's order.

    Raises ValueError where either has no match, which no date is found beside.
    """
    days = {point.label: (point.first, point.last) for point in series}
    end, begin = days[last][1], days[following][0]
    if not end or not begin:
        raise ValueError(f"no match in {last} or in {following}")
    return min(end, begin), max(end, begin)


def _day(series: list[Point], turn: TurningDate) -> float:
    """The data's own date, midway between the matches on either side of it."""
    return middle(*between(series, turn.last, turn.next))


def reach(series: list[Point], turn: TurningDate) -> tuple[date, date]:
    """The first and the last day on which the date may be, by its interval."""
    used = [label for label, _ in turn.fit]
    following = dict(pairwise(used))
    first, _ = between(series, turn.low, following[turn.low])
    _, last = between(series, turn.high, following[turn.high])
    return first, last


def _draw_turn(canvas: Canvas, axes: Axes, series: list[Point], turn: TurningDate) -> None:
    """Shade the interval, draw the fitted level on each side."""
    theme = canvas.theme
    first, last = (day.toordinal() for day in reach(series, turn))
    low, high = seen(canvas, axes, first, last, LEAST)
    axes.axvspan(low, high, color=theme.hairline, linewidth=0, zorder=0)
    fitted = dict(turn.fit)
    sides = _sides(series, turn)
    for side, colour in ((sides.before, theme.first), (sides.after, theme.second)):
        told = [each for each in placed(series) if each.point.label in {*side} & {*fitted}]
        values = [fitted[each.point.label] for each in told]
        line(canvas, axes, [each.at for each in told], values, colour, width=0.3)
