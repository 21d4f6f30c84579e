"""What stands over a series in time: events with their names, the data's own date, the drift."""

from __future__ import annotations

import itertools
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.charts.events import MOST, Event, events_inside, names_of
from pipeline.charts.frame import frame
from pipeline.charts.kinds.trend import drift_paths
from pipeline.charts.kinds.turning_point import between, reach
from pipeline.charts.theme import theme_of
from pipeline.charts.time_axis import Limits
from pipeline.config.kinds.trend import Trend
from pipeline.config.kinds.turning_point import TurningPoint
from pipeline.config.topic import OtherEvent
from pipeline.contracts.findings import Point
from pipeline.contracts.timing import Period
from tests.chart_makers import EVENT, THEME, chart, charts_view, drawn, row, timing_of, turned
from tests.frame_checks import check
from tests.seasons import windows
from tests.series_makers import (
    SERIES,
    canvas_of,
    dated,
    halfway,
    summers,
    two_calendars,
)

LIGHT = theme_of(THEME, "light")


@pytest.mark.parametrize("name", SERIES)
def test_no_text_stands_on_another_over_any_series(name: str):
    series, days = SERIES[name], [point.first for point in SERIES[name] if point.first]
    also = [
        OtherEvent(name=f"Rule {at} of the {'very ' * at}new book", date=day + timedelta(20))
        for at, day in enumerate(days[-4:])
    ]
    event = EVENT.model_copy(update={"date": days[len(days) // 2]})
    half = [point.label for point in series if point.first and point.first < event.date]
    rest = [point.label for point in series if point.label not in half]
    made = chart(Trend, [row("all", 5.0, 5.5, values={})], series, windows(half, rest))
    view = charts_view(also=also, event=event)
    for theme in ("light", "dark"):
        check(frame(made, view, theme_of(THEME, theme)))


def test_events_stand_at_their_dates():
    series = summers(4, 2015)
    named = [("eve", date(2015, 4, 11)), ("in", date(2016, 6, 1)), ("winter", date(2016, 12, 24))]
    named += [("last", date(2018, 9, 6)), ("late", date(2018, 9, 7))]
    found = events_inside(named, series)
    assert [(event.name, event.day) for event in found] == [
        (name, day.toordinal()) for name, day in named[1:4]
    ]
    also = [OtherEvent(name=name, date=day) for name, day in named[1:3]]
    event = EVENT.model_copy(update={"date": date(2017, 2, 3)})
    canvas = frame(chart(Trend, [], series), charts_view(also=also, event=event), LIGHT)
    dashed = [
        line.get_xdata()[0]
        for line in canvas.figure.axes[0].lines
        if line.get_linestyle() == "--" and line.get_ydata()[0] == 0
    ]
    days = [date(2016, 6, 1), date(2016, 12, 24), date(2017, 2, 3)]
    assert dashed == [day.toordinal() for day in days]


@given(
    days=st.lists(st.floats(0, 100), min_size=1, max_size=6),
    lengths=st.lists(st.integers(1, 40), min_size=6, max_size=6),
)
@settings(max_examples=200, deadline=None)
def test_no_name_of_an_event_stands_on_another(days: list[float], lengths: list[int]):
    canvas = canvas_of()
    events = [Event("n" * length, day) for length, day in zip(lengths, days, strict=False)]
    names = names_of(canvas, events, Limits(0, 100), 200, 1500)
    assert [name.event.day for name in names.names] == sorted(days)
    spans = [
        (name.left, name.left + canvas.text_width(name.words, 42, "SemiBold"), name.row)
        for name in names.names
    ]
    assert all(low >= 200 - 1 and high <= 1700 + 1 for low, high, _ in spans)
    for at, (low, high, level) in enumerate(spans):
        beside = [each for each in spans[at + 1 :] if level is not None and each[2] == level]
        assert all(high < other[0] or other[1] < low for other in beside)
    for (one, low, high), (day, level) in itertools.product(
        [(name, *span[:2]) for name, span in zip(names.names, spans, strict=True)],
        [(200 + 15 * name.event.day, name.row) for name in names.names if names.led],
    ):
        through = low + 1 < day < high - 1 and level is not None and one.row is not None
        assert not through or one.row >= level  # its line ends below the name, or at it
    rows = [level for _, _, level in spans if level is not None]
    assert names.rows == max(rows) < MOST and len(rows) >= min(len(days), MOST)


@pytest.mark.parametrize(("days", "order"), [((10, 11, 12), [2, 1, 0]), ((88, 89, 90), [0, 1, 2])])
def test_a_line_goes_up_to_its_name_and_through_no_other(days, order):
    """Names on the right of their lines, or on the left where the right has no room."""
    events = [Event(f"The rule of {day}", day) for day in days]
    names = names_of(canvas_of(), events, Limits(0, 100), 200, 1500)
    assert [name.row for name in names.names] == order
    assert names.led
    for name in names.names:
        at = 200 + name.event.day * 15
        end = name.left + canvas_of().text_width(name.words, 42, "SemiBold")
        assert at == pytest.approx(name.left if order[0] else end)
        for other in names.names:
            assert not (other.row < name.row and other.left < at < other.left + 200)


def test_the_data_s_own_date_is_between_the_last_match_before_it_and_the_first_after_it():
    series = summers(8)
    turn = turned(series, 3).turn
    assert between(series, turn.last, turn.next) == (date(2012, 9, 6), date(2013, 4, 11))
    assert reach(series, turn) == (date(2011, 9, 6), date(2014, 4, 11))
    canvas = drawn(chart(TurningPoint, [turned(series, 3)], series, None))
    upright = [
        line for line in canvas.figure.axes[0].lines if line.get_color() == THEME.light.second
    ]
    own = [line.get_xdata()[0] for line in upright if line.get_ydata()[0] == 0]
    assert own == [(date(2012, 9, 6).toordinal() + date(2013, 4, 11).toordinal()) / 2]


def test_a_date_between_seasons_that_overlap_has_its_days_in_order():
    long = dated("2014", date(2014, 3, 1), date(2014, 10, 30), 5.0)
    late = dated("2014/15", date(2014, 9, 20), date(2015, 3, 1), 5.0)
    assert between([long, late], "2014", "2014/15") == (date(2014, 9, 20), date(2014, 10, 30))
    with pytest.raises(ValueError, match="no match in 2014 or in 2016"):
        between([long, dated("2016", None, None, None)], "2014", "2016")


def periods(series: list[Point]) -> list[Period]:
    return timing_of([point for point in series if point.first], "season", None).periods["season"]


def test_the_drift_runs_through_the_points_own_times_and_steps_at_the_event():
    """Two per cent a year, five per cent on top from the event on, whatever the gaps are."""
    series, event = two_calendars(), date(2016, 10, 20)
    whole = [point for point in series if point.first and not point.part]
    kept = [point for point in whole if not point.first < event <= point.last]
    years = {point.label: (halfway(point) - event.toordinal()) / 365.25 for point in kept}
    fit = [
        (point.label, 5 * 1.02 ** years[point.label] * (1.05 if point.first >= event else 1))
        for point in kept
    ]
    before, after = drift_paths(periods(series), fit, event)
    assert len(before) + len(after) == len(kept) + 2 and len(kept) == len(whole) - 1
    assert before[-1] == pytest.approx((event.toordinal(), 5.0))
    assert after[0] == pytest.approx((event.toordinal(), 5.25))
    for path in (before, after):
        days, values = np.array(path).T
        assert (np.diff(days) > 0).all()
        assert np.diff(np.log(values)) == pytest.approx(np.diff(days) / 365.25 * np.log(1.02))


def test_a_drift_with_one_point_on_a_side_is_drawn_on_by_the_other_side_s():
    series = summers(4)
    fit = [("2009", 5.0), ("2010", 5.1), ("2011", 5.202), ("2012", 6.0)]
    before, after = drift_paths(periods(series), fit, date(2012, 1, 1))
    rate = np.log(before[-1][1] / 5.0) / (before[-1][0] - before[0][0])
    assert np.log(6.0 / after[0][1]) / (after[1][0] - after[0][0]) == pytest.approx(rate)


def test_names_that_have_room_on_neither_side_are_not_led_up_to():
    """Two long ones, near one end and near the other, and more events than there are rows."""
    long = [Event("n" * 20, day) for day in (3, 4, 96, 97)]
    names = names_of(canvas_of(), long, Limits(0, 100), 200, 1500)
    assert not names.led and [name.row for name in names.names] == [1, 0, 1, 0]
    many = [Event("of one week", 10 + day / 100) for day in range(6)]
    rows = [name.row for name in names_of(canvas_of(), many, Limits(0, 100), 200, 1500).names]
    assert rows == [None, None, 3, 2, 1, 0]


@pytest.mark.parametrize("theme", ["light", "clear"])
def test_lines_end_at_their_names_and_names_have_no_ground_of_their_own(theme: str):
    """One that is led up to reaches the row of its name, the lowest ends with the drawing."""
    series = summers()
    also = [OtherEvent(name="The second rule", date=date(2013, 1, 1))]
    event = EVENT.model_copy(update={"date": date(2012, 6, 1), "name": "The first rule"})
    canvas = frame(
        chart(Trend, [], series), charts_view(also=also, event=event), theme_of(THEME, theme)
    )
    (axes,) = [axes for axes in canvas.figure.axes if axes.lines]
    tops = [line.get_ydata()[1] for line in axes.lines if line.get_linestyle() == "--"]
    assert tops[1] == 1 < tops[0]
    names = [text for text in canvas.texts if text.get_text().endswith("rule")]
    assert len(names) == 2 and not any(text.get_bbox_patch() for text in names)
    upper = names[0].get_window_extent(canvas.renderer)
    top = axes.transAxes.transform((0, tops[0]))[1]
    assert 0 <= upper.y0 - top < canvas.sizes.small


def test_a_very_long_name_is_cut_at_three_fifths_of_the_drawing():
    (name,) = names_of(canvas_of(), [Event("n" * 99, 50)], Limits(0, 100), 200, 1500).names
    assert name.words.endswith("n…")
    assert 860 < canvas_of().text_width(name.words, 42, "SemiBold") <= 900
