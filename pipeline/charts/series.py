"""The long series over time, with intervals and the events; or blind, without them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from pipeline.charts.alt_text import describe_series
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Chart
from pipeline.charts.events import ROW, Event, draw_events, names_of
from pipeline.charts.faces import points
from pipeline.charts.marks import dress, line, mark, value_ticks
from pipeline.charts.time_axis import Placed, limits_of, placed, room_for, ticks_of
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Point
from pipeline.contracts.parts import Side
from pipeline.contracts.timing import OUTSIDE, SIDES
from pipeline.wording import numbers

if TYPE_CHECKING:
    from pipeline.config.project import Format

TALL = 700  # pixels of a drawing that is not made of rows
FINEST = 2  # decimals on the axis
BOTTOM = 0.16  # of the spread, for the windows' names under the points
SIZES = {OUTSIDE: 1.4, "before": 1.9, "after": 1.9}  # of a mark, by its side
ROOM = 2.4  # marks' widths that a point has before the marks are drawn smaller
SMALLEST = 0.5  # of a mark's size, where points stand close
PALE = "99"  # the colour's opacity at part of a period, as a colour's last two letters
TICK = 0.25  # of a letter's height: the stroke that shows where a year begins


class Split(NamedTuple):
    """Labels of the points on each side: of the topic's event, or of a date that the data found."""

    before: list[str]
    after: list[str]


def rows(chart: Chart) -> list[Finding]:
    """None are rows of the drawing; what stands behind it is the finding of the whole series."""
    return chart.findings


def left_out(chart: Chart) -> int:
    return 0


def page_height(chart: Chart) -> int:
    return TALL


def described(chart: Chart, form: Format) -> str:
    return describe_series(chart.measure, chart.unit, chart.points)


def split_of(chart: Chart) -> Split | None:
    """The points of each window, most of whose matches it has; none without an event."""
    if chart.timing.windows is None:
        return None
    periods = chart.timing.periods[chart.unit]
    before, after = ([one.label for one in periods if one.side == side] for side in SIDES)
    return Split(before, after)


def draw_series(
    canvas: Canvas,
    series: list[Point],
    split: Split | None,
    events: list[Event],
    decimals: int,
    box: Box,
    draw_over: Callable[[Axes], None] | None,
    blind: bool = False,
) -> None:
    """Draw the points into a rectangle of pixels; `draw_over` draws what the kind lays over them.

    Points are joined by nothing: two calendars' seasons may overlap. Blind, the shape is the same
    and nothing says when: no year, no event, no window, no colour of one.
    """
    sizes = canvas.sizes
    room = _axis_room(canvas, series, decimals)
    wide = room_for(canvas, series, box.width - room)
    names = names_of(canvas, events, limits_of(series), box.left + room, wide)
    head = sizes.small * ROW * (1 + names.rows)
    below = sizes.small * 1.9
    with canvas.step(1):
        axes = canvas.axes(box.left + room, box.top + head, wide, box.height - head - below)
        _frame_axes(canvas, axes, series, decimals)
        if not blind:
            _time_ticks(canvas, axes, series, wide)
        dress(canvas, [*axes.get_xticklabels(), *axes.get_yticklabels()])
    spots = placed(series)
    size = _crowded(canvas, spots, wide)
    for step, late in ((2, False), (3, True)):
        with canvas.step(step):
            for spot in spots:
                side = _side(spot.point, split)
                if (side == "after") is late:
                    _draw_point(canvas, axes, spot, OUTSIDE if blind else side, size)
    if blind:
        return
    with canvas.step(4):
        if draw_over:
            draw_over(axes)
        draw_events(canvas, axes, names, box.top)


def ends_of(sides: Sequence[Side]) -> list[float]:
    """Every value and every end of an interval that there is."""
    every = (end for side in sides for end in (side.low, side.high, side.value))
    return [end for end in every if end is not None]


def _axis_room(canvas: Canvas, series: list[Point], decimals: int) -> float:
    ends = ends_of(series) or [0.0]
    fine = max(1, min(decimals, FINEST))
    words = [numbers.shown(end, fine) for end in (min(ends), max(ends))]
    return max(canvas.text_width(word, canvas.sizes.small) for word in words) + 36


def _frame_axes(canvas: Canvas, axes: Axes, series: list[Point], decimals: int) -> None:
    """Limits from the series alone, so that a blind frame and its reveal have one shape."""
    ends = ends_of(series) or [0.0, 1.0]
    spread = (max(ends) - min(ends)) or 1.0
    axes.set_xlim(*limits_of(series))
    axes.set_ylim(min(ends) - BOTTOM * spread, max(ends) + 0.08 * spread)
    axes.yaxis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
    axes.grid(axis="y", color=canvas.theme.hairline, linewidth=2)
    axes.set_axisbelow(True)
    ticks = value_ticks(canvas, axes)
    fine = 0 if all(float(tick).is_integer() for tick in ticks) else max(1, min(decimals, FINEST))
    axes.set_yticks(ticks, [numbers.shown(tick, fine) for tick in ticks])
    axes.set_xticks([])


def _time_ticks(canvas: Canvas, axes: Axes, series: list[Point], width: float) -> None:
    """Years, or months of a short series, each with a stroke at its first day."""
    ticks = ticks_of(canvas, series, width)
    axes.set_xticks([day for day, _ in ticks], [words for _, words in ticks])
    axes.tick_params(
        axis="x",
        length=points(canvas.sizes.small * TICK),
        width=points(canvas.sizes.small * 0.06),
        color=canvas.theme.muted,
        pad=points(canvas.sizes.small * 0.12),
    )


def _side(point: Point, split: Split | None) -> str:
    if split is None:
        return OUTSIDE
    if point.label in split.before:
        return "before"
    return "after" if point.label in split.after else OUTSIDE


def _crowded(canvas: Canvas, spots: list[Placed], width: float) -> float:
    """What part of their size the marks have: all of it, but where there are very many."""
    drawn = sum(spot.point.value is not None for spot in spots) or 1
    return max(SMALLEST, min(1.0, width / drawn / (ROOM * canvas.sizes.mark)))


def _draw_point(canvas: Canvas, axes: Axes, spot: Placed, side: str, size: float) -> None:
    """Part of a period is hollow and lighter: it can't be held against the others."""
    theme, point = canvas.theme, spot.point
    colour = {"before": theme.first, "after": theme.second, OUTSIDE: theme.muted}[side]
    if point.value is None:
        return
    if point.part:
        colour += PALE
    if point.low is not None and point.high is not None:
        line(canvas, axes, [spot.at] * 2, [point.low, point.high], colour, width=0.4 * size)
    solid = side == "after" and not point.part
    mark(canvas, axes, spot.at, point.value, colour, solid=solid, size=SIZES[side] * size)
