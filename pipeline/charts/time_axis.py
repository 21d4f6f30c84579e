"""A true time axis: points at the middle of their matches, years or months along the bottom.

Times are days, counted as `date.toordinal` does.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from matplotlib.axes import Axes

from pipeline.calendar import NAMES, YEAR, middle
from pipeline.charts.canvas import Canvas
from pipeline.contracts.findings import Point

SHORT = 2 * YEAR  # a shorter series has months
LEAST = 100.0  # days that are drawn at least, so that there is a first of a month to name
PAD = 0.02  # of the whole, on either side: room for half a mark
EACH = (1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200)  # months from tick to tick
APART = 0.6  # of a letter's height between two labels: five pixels of a frame that is 400 wide
Tick = tuple[float, str]  # day, label


class Placed(NamedTuple):
    """A point of a series where it stands in time."""

    at: float
    first: date
    last: date
    point: Point


class Limits(NamedTuple):
    """Days at the two ends of the drawing."""

    low: float
    high: float

    def share(self, day: float) -> float:
        """How far along a day stands, 0 at the left end."""
        return (day - self.low) / (self.high - self.low)


def placed(series: list[Point]) -> list[Placed]:
    """Points in the order of their middles; one without a match stands nowhere in time.

    Seasons of two calendars may overlap, so the order is not that of their first days. Raises
    ValueError for a value without days, which could not be drawn.
    """
    if lost := [point.label for point in series if point.value is not None and not point.first]:
        raise ValueError(f"{lost[0]} has a value and no days")
    found = [
        Placed(middle(point.first, point.last), point.first, point.last, point)
        for point in series
        if point.first and point.last
    ]
    return sorted(found, key=lambda each: each.at)


def limits_of(series: list[Point]) -> Limits:
    """From the first day to the last, with some room on either side."""
    spots = placed(series)
    if not spots:
        return Limits(0.0, LEAST)
    low = min(each.first.toordinal() for each in spots)
    high = max(each.last.toordinal() for each in spots)
    more = max(PAD * (high - low), (LEAST - (high - low)) / 2)
    return Limits(low - more, high + more)


def seen(canvas: Canvas, axes: Axes, low: float, high: float, marks: float) -> tuple[float, float]:
    """The same two days, or days as far apart as so many marks are wide: less is not seen."""
    ends = Limits(*axes.get_xlim())
    pixels = axes.get_window_extent(canvas.renderer).width
    least = marks * canvas.sizes.mark / pixels * (ends.high - ends.low)
    more = max(0.0, (least - (high - low)) / 2)
    return low - more, high + more


def ticks_of(canvas: Canvas, series: list[Point], width: float) -> list[Tick]:
    """Firsts of January with their years; firsts of months where the series is short.

    As many as stand apart on so many pixels, at even steps.
    """
    if not placed(series):
        return []
    limits = limits_of(series)
    short = limits.high - limits.low < SHORT * (1 + 2 * PAD)
    steps = [months for months in EACH if short or months >= 12]
    made = (_ticks(limits, months) for months in steps)
    return next((ticks for ticks in made if _apart(canvas, ticks, limits, width)), [])


def room_for(canvas: Canvas, series: list[Point], width: float) -> float:
    """How many of the pixels the axis may take, so that its last label ends within them."""
    limits, found = limits_of(series), width
    for _ in range(len(EACH)):  # on a narrower axis there may be other labels, fewer each time
        ends = [
            (width - canvas.text_width(words, canvas.sizes.small) / 2) / limits.share(day)
            for day, words in ticks_of(canvas, series, found)
            if day > limits.low
        ]
        if min(ends, default=found) >= found:
            break
        found = min(ends)
    return found


def _ticks(limits: Limits, months: int) -> list[Tick]:
    return [
        (float(day.toordinal()), _words(day, months))
        for day in _firsts(limits, months)
        if limits.low <= day.toordinal() <= limits.high
    ]


def _firsts(limits: Limits, months: int) -> Iterator[date]:
    """First days of every so many months, from before the one end to beyond the other."""
    first, last = (date.fromordinal(_known(math.floor(day))) for day in limits)
    begin, end = (day.year * 12 + day.month - 1 for day in (first, last))
    for at in range(begin - begin % months, end + 1, months):
        if at >= 12:  # there is no year 0
            yield date(at // 12, at % 12 + 1, 1)


def _known(day: int) -> int:
    """A day of the calendar, where the room at an end reaches beyond it."""
    return min(max(day, date.min.toordinal()), date.max.toordinal())


def _words(day: date, months: int) -> str:
    return str(day.year) if months >= 12 else f"{NAMES[day.month - 1]} {day.year}"


def _apart(canvas: Canvas, ticks: list[Tick], limits: Limits, width: float) -> bool:
    """Whether no label comes near the next."""
    size = canvas.sizes.small
    half = [canvas.text_width(words, size) / 2 for _, words in ticks]
    place = [limits.share(day) * width for day, _ in ticks]
    return all(
        place[at] - half[at] >= place[at - 1] + half[at - 1] + APART * size
        for at in range(1, len(ticks))
    )
