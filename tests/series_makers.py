"""Series of invented competitions, tidy and untidy, and where their points are to be drawn."""

from __future__ import annotations

import math
from calendar import monthrange
from datetime import date, timedelta

from matplotlib.lines import Line2D

from pipeline.charts.canvas import Canvas
from pipeline.charts.theme import FRAME, Sizes, theme_of
from pipeline.contracts.findings import Point
from tests.chart_makers import THEME
from tests.finding_makers import side


def dated(
    label: str, first: date | None, last: date | None, value: float | None, part: bool = False
) -> Point:
    """A point with an interval of 0.2 on either side; without days it has no match."""
    made = side(value, low=value and value - 0.2, high=value and value + 0.2, matches=40)
    plain = {name: getattr(made, name) for name in made.__struct_fields__}
    return Point(label=label, first=first, last=last, part=part, **plain)


def summers(count: int = 14, begin: int = 2009) -> list[Point]:
    """One season a year, from April to September, a little higher every other year."""
    years = range(begin, begin + count)
    return [
        dated(
            str(year), date(year, 4, 11), date(year, 9, 6), 5 + (year - begin) * 0.04 + year % 2 / 5
        )
        for year in years
    ]


def two_calendars() -> list[Point]:
    """A northern and a southern competition pooled: seasons overlap, and some years are wanting.

    No match between March 2014 and April 2016; a cup played twice in 2018; the first season begun
    late and the last one not over. In the order of their first days, as the stages give them.
    """
    north = [
        (str(year), date(year, 3, 12), date(year, 9, 28)) for year in (*range(2009, 2014), 2017)
    ]
    south = [
        (f"{year}/{(year + 1) % 100:02}", date(year, 9, 20), date(year + 1, 3, 30))
        for year in (*range(2008, 2014), 2016, 2017, 2018, 2019)
    ]
    cups = [("2018 spring cup", date(2018, 4, 20), date(2018, 5, 28))]
    cups += [("2018 autumn cup", date(2018, 8, 3), date(2018, 9, 30))]
    cups += [
        ("2016", date(2016, 4, 2), date(2016, 9, 28)),
        ("2019", date(2019, 3, 1), date(2019, 9, 2)),
    ]
    ends = {"2008/09": date(2009, 2, 20), "2019/20": date(2019, 9, 20)}
    made = []
    for at, (label, first, last) in enumerate(sorted([*north, *south, *cups], key=lambda e: e[1])):
        value = 5 + 0.05 * at + 0.3 * math.sin(2.3 * at)
        begun = ends["2008/09"] if label == "2008/09" else first
        ended = date(2019, 10, 14) if label == "2019/20" else last
        made.append(dated(label, begun, ended, value, part=label in ends))
    return [*made, dated("2020", None, None, None)]


def months(count: int = 19, begin: date = date(2014, 9, 1)) -> list[Point]:
    """A point a month with a winter without matches; the first and the last are parts."""
    made, day = [], begin
    for at in range(count):
        last = day.replace(day=monthrange(day.year, day.month)[1])
        played = day.month not in (12, 1, 2)
        ends = (day + timedelta(days=2), last) if played else (None, None)
        value = 7 + math.sin(at) / 2 if played else None
        made.append(dated(f"{day:%Y-%m}", *ends, value, part=at in (0, count - 1)))
        day = last + timedelta(days=1)
    return made


SERIES = {"summers": summers(), "two calendars": two_calendars(), "months": months()}


def halfway(point: Point) -> float:
    """Days to the middle of its matches."""
    assert point.first and point.last
    return point.first.toordinal() + (point.last - point.first).days / 2


def canvas_of(sizes: Sizes = FRAME) -> Canvas:
    """An empty one of a frame's size."""
    return Canvas(1920, 1080, theme_of(THEME, "light"), sizes)


def round_marks(canvas: Canvas) -> list[Line2D]:
    """The marks of all points, hollow and solid."""
    return [line for axes in canvas.figure.axes for line in axes.lines if line.get_marker() == "o"]
