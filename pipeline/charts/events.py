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
    """All names of a drawing; `rows` are those above the first."""

    names: list[Name]
    rows: int


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
    """Each above its line, in one row if they fit; else each beside its own, and none on another.

    On the right of the lines the last name stands lowest, on the left the first, so that no line
    passes another's name on its way up. Where neither side has the room, names are moved along.
    """
    ordered = sorted(events, key=lambda each: each.day)
    size = canvas.sizes.small
    words = [canvas.shortened(event.name, size, "SemiBold", width * 0.6) for event in ordered]
    wide = [canvas.text_width(each, size, "SemiBold") for each in words]
    lines = [left + limits.share(event.day) * width for event in ordered]
    for way in (ABOVE, RIGHT, LEFT, RIGHT):
        wanted = [at - way * each for at, each in zip(lines, wide, strict=True)]
        ends = [left + width - each for each in wide]
        edges = [min(max(at, left), end) for at, end in zip(wanted, ends, strict=True)]
        rows = _rows(edges, wide, size * 0.5, from_left=way == LEFT)
        if edges == wanted if way != ABOVE else not any(rows):
            break
    names = [Name(*each) for each in zip(ordered, words, edges, rows, strict=True)]
    return Names(names, max((row for row in rows if row is not None), default=0))


def _rows(edges: list[float], wide: list[float], apart: float, from_left: bool) -> list[int | None]:
    """The lowest row that is free for each name, the last first, or the first."""
    taken: list[list[tuple[float, float]]] = [[] for _ in range(MOST)]
    found: list[int | None] = [None] * len(edges)
    places = range(len(edges))
    for at in places if from_left else reversed(places):
        low, high = edges[at] - apart, edges[at] + wide[at] + apart
        free = (
            row
            for row in range(MOST)
            if all(high <= begin or end <= low for begin, end in taken[row])
        )
        if (row := next(free, None)) is not None:
            taken[row].append((edges[at], edges[at] + wide[at]))
            found[at] = row
    return found


def draw_events(canvas: Canvas, axes: Axes, names: Names, top: float) -> None:
    """Dashed for what happened, solid for what the data found; each line goes up to its name."""
    theme, size = canvas.theme, canvas.sizes.small
    height = axes.get_window_extent(canvas.renderer).height
    for event, words, left, row in names.names:
        colour = theme.second if event.found else theme.ink
        axes.axvline(
            event.day,
            ymax=1 + ROW * size * (row or 0) / height,
            color=colour,
            linewidth=3 if event.found else 2,
            linestyle="-" if event.found else (0, (4, 3)),
            clip_on=False,
        )
        if row is not None:
            y = top + size * (1 + ROW * (names.rows - row))
            text = canvas.text(left, y, words, size, "SemiBold", colour)
            text.set_bbox({"facecolor": theme.ground, "edgecolor": "none", "pad": 1})
