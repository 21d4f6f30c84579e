"""Which seasons stand before the event and which after it."""

from __future__ import annotations

from functools import partial

import pytest

from pipeline.errors import UserError
from pipeline.metrics.windows import choose_windows
from tests.seasons import event, season

SEASONS = [season(year) for year in range(2012, 2020)]


def test_seasons_are_counted_from_the_event():
    found = choose_windows(SEASONS, event("2016-03-01", {"seasons": 3}, {"seasons": 2}), "t")
    assert (found.before, found.after) == (["2013", "2014", "2015"], ["2016", "2017"])
    assert found.transition is None


def test_the_season_of_the_event_is_in_neither_window():
    found = choose_windows(SEASONS, event("2016-06-01", {"seasons": 2}, {"seasons": 2}), "t")
    assert (found.before, found.after) == (["2014", "2015"], ["2017", "2018"])
    assert found.transition == "2016"


def test_named_seasons_and_dates():
    asked = event(
        "2016-03-01",
        {"first": "2012", "last": "2014"},
        {"first": "2016-06-01", "last": "2018-12-31"},
    )
    found = choose_windows(SEASONS, asked, "t")
    assert (found.before, found.after) == (["2012", "2013", "2014"], ["2017", "2018"])


def test_more_seasons_than_there_are_is_an_error_that_says_so():
    with pytest.raises(UserError) as caught:
        choose_windows(SEASONS, event("2013-03-01", {"seasons": 3}, {"seasons": 9}), "t")
    first, second = (str(problem) for problem in caught.value.problems)
    assert "3 seasons asked; the data hold 1 (2012) before 2013-03-01" in first
    assert "9 seasons asked; the data hold 7" in second


@pytest.mark.parametrize(
    ("day", "last_before", "transition", "first_after"),
    [
        ("2016-03-31", "2015", None, "2016"),
        ("2016-04-01", "2015", None, "2016"),  # its first day: the whole season is after
        ("2016-04-02", "2015", "2016", "2017"),
        ("2016-09-30", "2015", "2016", "2017"),  # its last day was played under it
        ("2016-10-01", "2016", None, "2017"),
    ],
)
def test_a_season_is_whole_on_one_side_or_on_neither(day, last_before, transition, first_after):
    found = choose_windows(SEASONS, event(day, {"seasons": 2}, {"seasons": 2}), "t")
    assert (found.before[-1], found.transition) == (last_before, transition)
    assert found.after[0] == first_after


def test_a_window_never_reaches_over_the_event():
    asked = event(
        "2016-06-01", {"first": "2015", "last": "2018"}, {"first": "2013", "last": "2017"}
    )
    with pytest.raises(UserError) as caught:
        choose_windows(SEASONS, asked, "t")
    assert [problem.where for problem in caught.value.problems] == ["event.before", "event.after"]


def test_dates_take_only_seasons_that_are_whole_inside_them():
    asked = event(
        "2016-03-01",
        {"first": "2013-04-02", "last": "2015-09-30"},
        {"first": "2016-04-01", "last": "2018-09-29"},
    )
    found = choose_windows(SEASONS, asked, "t")
    assert (found.before, found.after) == (["2014", "2015"], ["2016", "2017"])


def test_a_trend_begins_with_the_first_season_compared_or_before_it():
    asked = partial(event, "2016-03-01", None, None)
    for first in ("2012", "2014"):
        assert choose_windows(SEASONS, asked(first), "t").before[0] == "2014"
    with pytest.raises(UserError, match="'2015' is after 2014, the first season compared"):
        choose_windows(SEASONS, asked("2015"), "t")
    with pytest.raises(UserError, match=r"no season '20014' \(did you mean '2014'\?\)"):
        choose_windows(SEASONS, asked("20014"), "t")
