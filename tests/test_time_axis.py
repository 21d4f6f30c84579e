"""The axis of a series is one of time: where its points, whole ones and parts, and ticks stand."""

from __future__ import annotations

import csv
import io
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.charts.data import data_of
from pipeline.charts.drawings import described
from pipeline.charts.frame import words_of
from pipeline.charts.theme import FRAME, PAGE
from pipeline.charts.time_axis import limits_of, placed, room_for, ticks_of
from pipeline.config.kinds.trend import Trend
from pipeline.config.kinds.turning_point import TurningPoint
from tests.chart_makers import EVENT, FORM, THEME, chart, charts_view, drawn, row, turned
from tests.frame_checks import boxes, check
from tests.seasons import windows
from tests.series_makers import (
    SERIES,
    canvas_of,
    dated,
    halfway,
    round_marks,
    summers,
    two_calendars,
)

SMALL = 400 / 1920  # of a frame that is shown 400 pixels wide


@pytest.mark.parametrize("name", SERIES)
def test_a_point_stands_halfway_between_its_first_match_and_its_last(name: str):
    series = SERIES[name]
    found = {
        (float(mark.get_xdata()[0]), float(mark.get_ydata()[0]))
        for mark in round_marks(drawn(chart(Trend, [], series, None)))
    }
    assert found == {(halfway(point), point.value) for point in series if point.first}
    assert name == "summers" or len(found) < len(series)  # a point without a match stands nowhere


def test_a_value_without_days_is_not_passed_over():
    with pytest.raises(ValueError, match="2012 has a value and no days"):
        placed([dated("2012", None, None, 5.0)])


def test_seasons_that_overlap_are_in_the_order_of_their_middles_and_not_joined():
    """A long season that begins first and has its middle later than a short one inside it."""
    year = dated("2015", date(2015, 1, 2), date(2015, 12, 20), 5.0)
    cup = dated("cup", date(2015, 3, 1), date(2015, 3, 30), 6.0)
    assert [each.point.label for each in placed([year, cup])] == ["cup", "2015"]
    for series in ([year, cup], two_calendars()):
        canvas = drawn(chart(Trend, [], series, None))
        bars = [
            line.get_xdata()
            for axes in canvas.figure.axes
            for line in axes.lines
            if line.get_marker() in ("None", "", None)
        ]
        assert bars and all(len(set(days)) == 1 for days in bars)  # upright, every one


@pytest.mark.parametrize(
    ("series", "words"),
    [
        (summers(14), ["2010", "2012", "2014", "2016", "2018", "2020", "2022"]),
        (summers(4, 2015), ["2016", "2017", "2018"]),
        (summers(60, 1961), [str(year) for year in range(1965, 2021, 5)]),
        (summers(2), ["Apr 2009", "Jul 2009", "Oct 2009", "Jan 2010", "Apr 2010", "Jul 2010"]),
        (two_calendars(), [str(year) for year in range(2009, 2020)]),
    ],
)
def test_ticks_are_years_as_many_as_fit_or_months_of_a_short_series(series, words):
    ticks = ticks_of(canvas_of(), series, 1600)
    assert [label for _, label in ticks] == words
    for day, label in ticks:
        first = date.fromordinal(int(day))
        assert first.day == 1 and label.endswith(str(first.year))
        assert first.month == 1 or label == f"{first:%b} {first.year}"


ENDS = st.tuples(
    st.dates(date(1771, 1, 1), date(2300, 1, 1)), st.integers(0, 60_000), st.floats(900, 1700)
)


@given(ends=ENDS, page=st.booleans())
@settings(max_examples=200, deadline=None)
def test_labels_never_touch_and_stay_on_the_drawing(ends, page: bool):
    """In any series: two labels or more, evenly apart, with room between them at 400 pixels too."""
    begin, days, whole = ends
    canvas = canvas_of(PAGE if page else FRAME)
    series = [
        dated("a", begin, begin, 5.0),
        dated("b", begin + timedelta(days), begin + timedelta(days), 5.0),
    ]
    width = room_for(canvas, series, whole)
    ticks, limits = ticks_of(canvas, series, width), limits_of(series)
    assert len(ticks) >= 2
    spans = [
        (limits.share(day) * width, canvas.text_width(label, canvas.sizes.small) / 2)
        for day, label in ticks
    ]
    for (one, half), (other, next_half) in pairwise(spans):
        assert (other - next_half - one - half) * SMALL >= (3.5 if page else 5)
    steps = [round((b - a) / 28) for (a, _), (b, _) in pairwise(ticks)]
    assert max(steps) - min(steps) <= max(steps) * 0.1 + 1
    last, half = spans[-1]
    assert last <= width and last + half <= whole + 1e-6 and width > whole - 100


def test_a_single_day_has_an_axis():
    series = [dated("2015", date(2015, 6, 12), date(2015, 6, 12), 5.0)]
    assert limits_of(series).high - limits_of(series).low == 100
    assert [label for _, label in ticks_of(canvas_of(), series, 1600)] == [
        *("May 2015", "Jun 2015", "Jul 2015", "Aug 2015")
    ]
    check(drawn(chart(Trend, [], series, None)))


def test_a_series_at_the_end_of_the_calendar_has_an_axis():
    for day in (date.min, date.max):
        assert ticks_of(canvas_of(), [dated("x", day, day, 5.0)], 1600)


def test_a_series_without_any_match_is_an_empty_axis():
    canvas = drawn(chart(Trend, [], [dated("2015", None, None, None)], None))
    assert not round_marks(canvas)
    assert not [text for text in canvas.figure.axes[0].get_xticklabels() if text.get_text()]


def test_part_of_a_period_is_hollow_and_paler_and_the_words_say_so():
    series = summers(6)
    series[-1] = dated("2014", date(2014, 4, 11), date(2014, 5, 2), 5.4, part=True)
    chosen = windows(["2009", "2010"], ["2011", "2012", "2013", "2014"])
    made = chart(Trend, [row("all", 5.0, 5.5, values={})], series, chosen)
    marks = sorted(round_marks(drawn(made)), key=lambda mark: mark.get_xdata()[0])
    *_, whole, part = marks
    assert whole.get_markerfacecolor() == whole.get_markeredgecolor() == THEME.light.second
    assert part.get_markerfacecolor() == THEME.light.ground
    assert part.get_markeredgecolor() == f"{THEME.light.second}99"
    assert "2013 5.36, 2014 (part of it) 5.40." in described(made, FORM)
    assert words_of(made, charts_view()).foot[0].endswith("· paler: part of a season")
    made = chart(Trend, made.findings, series[:-1])
    assert "part of" not in described(made, FORM) + words_of(made, charts_view()).foot[0]


def test_the_data_behind_a_series_are_its_periods_with_their_days():
    series = [*summers(1), dated("2010", date(2010, 4, 1), date(2010, 4, 9), None, part=True)]
    lines = list(csv.DictReader(io.StringIO(data_of(chart(Trend, [], series)))))
    assert [line["period"] for line in lines] == ["2009", "2010"]
    assert [line["part"] for line in lines] == ["False", "True"]
    days = [(line["first"], line["last"]) for line in lines]
    assert days == [("2009-04-11", "2009-09-06"), ("2010-04-01", "2010-04-09")]


@pytest.mark.parametrize("name", SERIES)
def test_a_blind_frame_of_any_series_says_nothing_of_when_and_keeps_its_shape(name: str):
    series = SERIES[name]
    dates = [point for point in series if point.first]
    made = chart(TurningPoint, [turned(dates, 6)], series, blind=True)
    hidden, shown = drawn(made, blind=True), drawn(made, still=True)
    told = " ".join(words for words, _ in boxes(hidden))
    assert "20" not in told and EVENT.name not in told
    assert not any(month in told for month in ("Jan", "Apr", "Jul", "Oct"))
    assert list(hidden.figure.axes[0].get_xticks()) == []
    shapes = [
        [
            (*axes.get_position().bounds, *axes.get_xlim(), *axes.get_ylim())
            for axes in c.figure.axes
        ]
        for c in (hidden, shown)
    ]
    assert shapes[0] == shapes[1]
    spots = [[tuple(mark.get_xydata()[0]) for mark in round_marks(c)] for c in (hidden, shown)]
    assert sorted(spots[0]) == sorted(spots[1])
    check(shown)
