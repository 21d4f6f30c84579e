"""What is written on a chart: its axis, the windows' names under a series, a change in words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from matplotlib.text import Text
from msgspec import structs

from pipeline.charts import words
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.change_panel import draw_changes
from pipeline.charts.comparison import draw_comparison
from pipeline.charts.marks import Columns
from pipeline.charts.rows import Comparison, rows_of
from pipeline.charts.theme import FRAME, theme_of
from pipeline.charts.value_panel import values_need
from pipeline.config.kinds.players import Players
from pipeline.config.kinds.trend import Trend
from pipeline.config.kinds.turning_point import TurningPoint
from pipeline.contracts.finding import Turn
from tests.chart_makers import THEME, chart, drawn, player, point, row
from tests.finding_makers import answer, change, effect, span
from tests.seasons import windows
from tests.word_makers import BEAT, ECONOMY, FORM


@pytest.mark.parametrize(
    ("size", "said"),
    [
        (98.0, ("+9,800.0%", "+9,799.0 to +9,801.0")),
        (99.0, ("+9,900.0%", "+9,899.0 to +9,901.0")),
        (150.0, ("151 times", "interval in the table")),
    ],
)
def test_a_change_beyond_a_hundredfold_is_told_in_times(size: float, said: tuple[str, str]):
    """A rise by 150 times what it was is to 151 times that."""
    finding = change(effect=effect(size, 9.0))
    assert words.effect(finding) == said


@pytest.mark.parametrize("way", [1, -1])
def test_a_list_in_which_all_went_one_way_has_none_on_its_axis(way: int):
    """How far from none they are is what the list is about."""
    listed = []
    for at in range(3):
        one = player(f"p{at}", way * 0.3, span(way * (0.25 + at / 100), 0.04))
        drawn_in = structs.replace(one.shrunk, mean=way * 0.3)
        listed.append(structs.replace(one, shrunk=drawn_in))
    whole = chart(Players, [row("all", 5.0, 6.5), *listed], role="bowler", at_least="9 balls")
    low, high = drawn(whole).figure.axes[0].get_xlim()
    assert low < 0 < high and max(-low, high) < 40 and min(-low, high) < 5


def test_a_turning_point_without_a_date_is_drawn_as_its_series():
    points = [point(str(year), year, 5.0 + year % 3) for year in range(2010, 2020)]
    refused = answer(Turn, refused="no_scatter", turn=None)
    axes = drawn(chart(TurningPoint, [refused], points)).figure.axes[0]
    marks = [line for line in axes.lines if line.get_marker() == "o"]
    middles = [date(year, 4, 1).toordinal() + 91 for year in range(2010, 2020)]
    assert sorted(line.get_xdata()[0] for line in marks) == middles


@pytest.mark.parametrize(
    ("decimals", "values", "tick"),
    [(2, (5.0, 5.05), "5.00"), (1, (5.0, 5.05), "5.0"), (0, (5.0, 5.5), "5.0"), (2, (5, 9), "6")],
)
def test_an_axis_has_the_decimals_of_its_measure(
    decimals: int, values: tuple[float, float], tick: str
):
    """One where the values between whole numbers need it; none where all of them are whole."""
    points = [point(str(2010 + at), 2010 + at, values[at % 2]) for at in range(6)]
    made = chart(Trend, [], points)
    made = replace(made, measure=made.measure.model_copy(update={"decimals": decimals}))
    ticks = drawn(made).figure.axes[0].get_yticklabels()
    assert tick in [text.get_text() for text in ticks]


def named(before: list[str], after: list[str], count: int) -> tuple[Canvas, list[Any]]:
    """The canvas of a trend, and the boxes of its windows' names, from the left."""
    points = [point(str(2000 + at), 2000 + at, 5.0 + at % 2) for at in range(count)]
    whole = row("all", 5.0, 5.5, values={})
    canvas = drawn(chart(Trend, [whole], points, windows(before, after)))
    canvas.figure.canvas.draw()
    texts = [text for axes in canvas.figure.axes for text in axes.findobj(Text)]
    boxes = [
        text.get_window_extent(canvas.renderer)
        for text in texts
        if text.get_text() in ("before 5.00", "after 5.50")
    ]
    return canvas, sorted(boxes, key=lambda box: box.x0)


def test_the_names_of_two_windows_that_are_close_stand_side_by_side():
    """Each of one season among thirty: a little room between them, and no more than that."""
    canvas, (first, second) = named(["2010"], ["2011"], 30)
    assert 0 < second.x0 - first.x1 < canvas.sizes.body


def test_the_name_of_a_window_at_the_end_stays_on_the_drawing():
    canvas, (first, second) = named(["2000"], ["2029"], 30)
    frame = canvas.figure.axes[0].get_window_extent(canvas.renderer)
    assert frame.x0 - 3 <= first.x0 and second.x1 <= frame.x1 + 3
    assert frame.x1 - second.x1 < canvas.sizes.body


def test_the_name_of_a_window_stands_in_the_middle_of_its_days():
    """From the first of April 2010 to the last of September 2012, and of seven years."""
    years = [[str(year) for year in range(*ends)] for ends in ((2010, 2013), (2016, 2023))]
    canvas, found = named(*years, 30)
    (axes,) = canvas.figure.axes
    for labels, box in zip(years, found, strict=True):
        first, last = date(int(labels[0]), 4, 1), date(int(labels[-1]), 9, 30)
        middle = (first.toordinal() + last.toordinal()) / 2
        at = axes.transData.transform((middle, 5))[0]
        assert (box.x0 + box.x1) / 2 == pytest.approx(at, abs=2)


HEADINGS = ["change, with 95% interval", "95% interval", ""]


@pytest.mark.parametrize("at", [0, 1])
def test_a_heading_is_as_long_as_the_legend_beside_it_leaves_room_for(at: int):
    """At least a letter's height apart; where not even the interval's own words fit, none."""
    rows = rows_of([row("Coast", 5.0, 5.5)], BEAT, ECONOMY, FORM)
    told = Comparison(rows, ("before", "after"), False, 2)
    for more, wanted in ((-2, HEADINGS[at]), (2, HEADINGS[at + 1])):
        canvas = Canvas(1920, 1080, theme_of(THEME, "light"), FRAME)
        columns = Columns(96, 300, 500, 500, 300, 40)
        right = columns.numbers_left + columns.numbers
        edge = right - canvas.text_width(HEADINGS[at], canvas.sizes.small) - canvas.sizes.body
        draw_changes(canvas, told, columns, 300, 500, [550], 200, edge + more)
        said = [text.get_text() for text in canvas.texts if "interval" in text.get_text()]
        assert said == [wanted] * bool(wanted)


@pytest.mark.parametrize("value", [5.0, 5e4, 5e5])
def test_a_long_name_leaves_the_numbers_beside_the_marks_their_room(value: float):
    """Up to a million; far beyond, names keep the least that they may have."""
    rows = rows_of([row("Upper Saltmarsh " * 4, value, 1.1 * value)], BEAT, ECONOMY, FORM)
    told = Comparison(rows, ("before", "after"), False, 2)
    canvas = Canvas(1920, 1080, theme_of(THEME, "light"), FRAME)
    draw_comparison(canvas, told, Box(96, 200, 1728, 700))
    (axes, _) = canvas.figure.axes
    panel = axes.get_window_extent(canvas.renderer)
    assert panel.width >= values_need(canvas, told) - 1
    marks = [line.get_xdata()[0] for line in axes.lines if line.get_marker() == "o"]
    first, second = (axes.transData.transform((value, 0))[0] for value in marks)
    assert second - first > 2 * canvas.sizes.mark  # a tenth is seen
    for text in axes.texts:
        box = text.get_window_extent(canvas.renderer)
        assert panel.x0 <= box.x0 and box.x1 <= panel.x1
