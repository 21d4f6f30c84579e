"""Events over a series: a line down, a name on top, as many rows of names as they need."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.contracts.findings import Point

MOST = 4  # rows of names; events that would need more have their line and no name


class Event(NamedTuple):
    """A name, its place among the points, and whether the data found it themselves."""

    name: str
    place: float
    found: bool = False


def events_inside(dates: Iterable[tuple[str, date]], series: list[Point]) -> list[Event]:
    """Those of the named dates that fall inside the series."""
    placed = ((name, event_place(day, series)) for name, day in dates)
    return [Event(name, place) for name, place in placed if place is not None]


def event_place(day: date, series: list[Point]) -> float | None:
    """Where a date falls among the points of a series; None outside them."""
    begun = [
        (at, point.last)
        for at, point in enumerate(series)
        if point.first and point.last and point.first < day
    ]
    if not begun:
        return None
    at, last = begun[-1]
    if last >= day:
        return float(at)
    return None if len(begun) == len(series) else at + 0.5


def rows_needed(
    canvas: Canvas, events: list[Event], series: list[Point], box: Box, axis_room: float
) -> int:
    """Rows above the first that the names take, so that none touches another."""
    rows = [row for _, _, row in _placed(canvas, events, series, box, axis_room)]
    return max([row for row in rows if row is not None], default=0)


def _placed(
    canvas: Canvas, events: list[Event], series: list[Point], box: Box, axis_room: float
) -> list[tuple[str, float, int | None]]:
    """(words, left edge, row) of each name; row None where all rows are full."""
    size, width = canvas.sizes.small, box.width - axis_room
    edges = [-1e9] * MOST
    found = []
    for event in sorted(events, key=lambda each: each.place):
        x = box.left + axis_room + (event.place + 0.6) / len(series) * width
        words = canvas.shortened(event.name, size, "SemiBold", width * 0.6)
        wide = canvas.text_width(words, size, "SemiBold")
        left = min(max(x - wide / 2, box.left + axis_room), box.right - wide)
        row = next((at for at in range(MOST) if edges[at] + size * 0.5 <= left), None)
        if row is not None:
            edges[row] = left + wide
        found.append((words, left, row))
    return found


def draw_events(
    canvas: Canvas,
    axes: Axes,
    events: list[Event],
    series: list[Point],
    box: Box,
    axis_room: float,
) -> None:
    """Dashed for what happened, solid for what the data found."""
    theme, size = canvas.theme, canvas.sizes.small
    placed = _placed(canvas, events, series, box, axis_room)
    deepest = max([row for _, _, row in placed if row is not None], default=0)
    ordered = sorted(events, key=lambda each: each.place)
    for event, (words, left, row) in zip(ordered, placed, strict=True):
        colour = theme.second if event.found else theme.ink
        dash = "-" if event.found else (0, (4, 3))
        axes.axvline(event.place, color=colour, linewidth=3 if event.found else 2, linestyle=dash)
        if row is not None:
            y = box.top + size * (1 + 1.3 * (deepest - row))
            canvas.text(left, y, words, size, "SemiBold", colour)
