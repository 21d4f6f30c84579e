"""Events over a series: a line down, a name on top, as many rows of names as they need."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from matplotlib.axes import Axes

from pipeline.charts.canvas import Canvas
from pipeline.charts.time_axis import Limits, placed
from pipeline.contracts.findings import Point

MOST = 4  # rows of names; events that would need more have their line and no name
ROW = 1.3  # letters' heights from row to row
ABOVE, RIGHT, LEFT = 0.5, 0.0, 1.0  # of its line: how much of a name stands on the left of it


class Event(NamedTuple):
    """A name, its day, and whether the data found it themselves."""

    name: str
    day: float
    found: bool = False


class Name(NamedTuple):
    """An event's name as it is written: its left edge in pixels and its row, counted from below.

    The row is none where all rows are full.
    """

    event: Event
    words: str
    left: float
    row: int | None


class Names(NamedTuple):
    """All names of a drawing; `rows` are those above the first.

    `led`: each line goes up to its name, and through no other.
    """

    names: list[Name]
    rows: int
    led: bool


def events_inside(dates: Iterable[tuple[str, date]], series: list[Point]) -> list[Event]:
    """Those of the named dates that fall inside the series."""
    return [Event(name, float(day.toordinal())) for name, day in dates if is_inside(day, series)]


def is_inside(day: date, series: list[Point]) -> bool:
    """Whether there are matches before a day, and on it or after it."""
    spots = placed(series)
    return any(each.first < day for each in spots) and any(each.last >= day for each in spots)


def names_of(
    canvas: Canvas, events: list[Event], limits: Limits, left: float, width: float
) -> Names:
    """Each above its line, in one row if they fit; else each beside its own, led up to by it.

    On the right of the lines the last name stands lowest, on the left the first. Where neither side
    has the room, names stand as near above their lines as they can, in rows.
    """
    ordered = sorted(events, key=lambda each: each.day)
    size = canvas.sizes.small
    words = [canvas.shortened(event.name, size, "SemiBold", width * 0.6) for event in ordered]
    wide = [canvas.text_width(each, size, "SemiBold") for each in words]
    lines = [left + limits.share(event.day) * width for event in ordered]
    apart, room = size * 0.5, (left, left + width)
    edges = _beside(lines, wide, ABOVE, room)
    rows, led = _rows(edges, wide, apart), False
    for way in (RIGHT, LEFT) if any(rows) else ():
        beside = _beside(lines, wide, way, room)
        higher = _rows(beside, wide, apart, lines, way)
        moved = any(
            abs(at + way * each - x) > 0.5 for at, each, x in zip(beside, wide, lines, strict=True)
        )
        if not moved and higher.count(None) <= rows.count(None):
            edges, rows, led = beside, higher, True
            break
    names = [Name(*each) for each in zip(ordered, words, edges, rows, strict=True)]
    return Names(names, max((row for row in rows if row is not None), default=0), led)


def _beside(
    lines: list[float], wide: list[float], way: float, room: tuple[float, float]
) -> list[float]:
    """Left edges of the names on that side of their lines, moved where they would stand out."""
    return [
        min(max(at - way * each, room[0]), room[1] - each)
        for at, each in zip(lines, wide, strict=True)
    ]


def _rows(
    edges: list[float],
    wide: list[float],
    apart: float,
    lines: list[float] | None = None,
    way: float = RIGHT,
) -> list[int | None]:
    """The lowest row that is free for each name, the last first, or the first if on the left.

    With `lines` a name stands higher than every name whose line would go through it.
    """
    found: list[int | None] = [None] * len(edges)
    done: list[int] = []
    for at in range(len(edges)) if way == LEFT else reversed(range(len(edges))):
        low, high = edges[at] - apart, edges[at] + wide[at] + apart
        taken = {found[n] for n in done if edges[n] < high and low < edges[n] + wide[n]}
        passing = [found[n] for n in done if lines and low < lines[n] < high]
        least = max((row + 1 for row in passing if row is not None), default=0)
        found[at] = next((row for row in range(least, MOST) if row not in taken), None)
        done.append(at)
    return found


def draw_events(canvas: Canvas, axes: Axes, names: Names, top: float) -> None:
    """Dashed for what happened, solid for what the data found."""
    theme, size = canvas.theme, canvas.sizes.small
    height = axes.get_window_extent(canvas.renderer).height
    for event, words, left, row in names.names:
        colour = theme.second if event.found else theme.ink
        up = ROW * size * (row or 0) / height if names.led else 0.0
        axes.axvline(
            event.day,
            ymax=1 + up,
            color=colour,
            linewidth=3 if event.found else 2,
            linestyle="-" if event.found else (0, (4, 3)),
            clip_on=False,
        )
        if row is not None:
            y = top + size * (1 + ROW * (names.rows - row))
            canvas.text(left, y, words, size, "SemiBold", colour)
