"""The long series by season, with intervals and the events; or blind, without them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from pipeline.charts.alt_text import describe_series
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Chart
from pipeline.charts.events import Event, draw_events, rows_needed
from pipeline.charts.marks import dress, line, mark, thinned, value_ticks
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Point
from pipeline.contracts.parts import Side
from pipeline.contracts.selection import Windows
from pipeline.wording import numbers

if TYPE_CHECKING:
    from pipeline.config.project import Format

TALL = 700  # pixels of a drawing that is not made of rows
LABEL = 260  # pixels of a season's label, at most
FINEST = 2  # decimals on the axis
BOTTOM = 0.16  # of the spread, for the windows' names under the points
OUTSIDE = "outside"  # a point of neither side


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
    return describe_series(chart.measure, chart.beat.point, chart.points)


def split_of(windows: Windows | None) -> Split | None:
    return Split(windows.before, windows.after) if windows else None


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

    Blind, the shape is the same and nothing says when: no season, no event, no window, no colour of
    one.
    """
    sizes = canvas.sizes
    axis_room = _axis_room(canvas, series, decimals)
    box = box._replace(width=box.width - _overhang(canvas, series, box.width - axis_room))
    head = sizes.small * 1.3 * (1 + rows_needed(canvas, events, series, box, axis_room))
    below = sizes.small * 1.9
    with canvas.step(1):
        axes = canvas.axes(
            box.left + axis_room,
            box.top + head,
            box.width - axis_room,
            box.height - head - below,
        )
        _frame_axes(canvas, axes, series, decimals, blind)
    first = [at for at, point in enumerate(series) if _side(point, split) != "after"]
    for step, places in ((2, first), (3, [at for at in range(len(series)) if at not in first])):
        with canvas.step(step):
            for at in places:
                side = OUTSIDE if blind else _side(series[at], split)
                _draw_point(canvas, axes, series[at], at, side)
    if blind:
        return
    with canvas.step(4):
        if draw_over:
            draw_over(axes)
        draw_events(canvas, axes, events, series, box, axis_room)


def ends_of(sides: Sequence[Side]) -> list[float]:
    """Every value and every end of an interval that there is."""
    every = (end for side in sides for end in (side.low, side.high, side.value))
    return [end for end in every if end is not None]


def _axis_room(canvas: Canvas, series: list[Point], decimals: int) -> float:
    ends = ends_of(series) or [0.0]
    fine = max(1, min(decimals, FINEST))
    words = [numbers.shown(end, fine) for end in (min(ends), max(ends))]
    return max(canvas.text_width(word, canvas.sizes.small) for word in words) + 36


def _overhang(canvas: Canvas, series: list[Point], width: float) -> float:
    """How far the last season's label would stand out on the right."""
    label = canvas.shortened(series[-1].label, canvas.sizes.small, "Medium", LABEL)
    return max(0.0, (canvas.text_width(label, canvas.sizes.small) - width / len(series)) / 2)


def _frame_axes(
    canvas: Canvas, axes: Axes, series: list[Point], decimals: int, blind: bool
) -> None:
    """Limits from the series alone, so that a blind frame and its reveal have one shape."""
    ends = ends_of(series) or [0.0, 1.0]
    spread = (max(ends) - min(ends)) or 1.0
    axes.set_xlim(-0.6, len(series) - 0.4)
    axes.set_ylim(min(ends) - BOTTOM * spread, max(ends) + 0.08 * spread)
    axes.yaxis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
    axes.grid(axis="y", color=canvas.theme.hairline, linewidth=2)
    axes.set_axisbelow(True)
    ticks = value_ticks(canvas, axes)
    fine = 0 if all(float(tick).is_integer() for tick in ticks) else max(1, min(decimals, FINEST))
    axes.set_yticks(ticks, [numbers.shown(tick, fine) for tick in ticks])
    axes.set_xticks([])
    if not blind:
        _season_ticks(canvas, axes, series)
    dress(canvas, [*axes.get_xticklabels(), *axes.get_yticklabels()])


def _season_ticks(canvas: Canvas, axes: Axes, series: list[Point]) -> None:
    """Season labels, the last one always among them."""
    labels = [canvas.shortened(p.label, canvas.sizes.small, "Medium", LABEL) for p in series]
    each = axes.get_window_extent(canvas.renderer).width / len(series)
    place = [(at + 0.5) * each for at in range(len(series))]
    kept = thinned(canvas, place[::-1], labels[::-1])
    shown = sorted(len(series) - 1 - at for at in kept)
    step = max(shown[at + 1] - shown[at] for at in range(len(shown) - 1)) if len(shown) > 1 else 1
    even = [at for at in range(len(series)) if (len(series) - 1 - at) % step == 0]
    axes.set_xticks(even, [labels[at] for at in even])


def _side(point: Point, split: Split | None) -> str:
    if split is None:
        return OUTSIDE
    if point.label in split.before:
        return "before"
    return "after" if point.label in split.after else OUTSIDE


def _draw_point(canvas: Canvas, axes: Axes, point: Point, x: int, side: str) -> None:
    theme = canvas.theme
    colour = {"before": theme.first, "after": theme.second, OUTSIDE: theme.muted}[side]
    if point.value is None:
        return
    if point.low is not None and point.high is not None:
        line(canvas, axes, [x, x], [point.low, point.high], colour)
    size = 1.9 if side != OUTSIDE else 1.4
    mark(canvas, axes, x, point.value, colour, solid=side == "after", size=size)
