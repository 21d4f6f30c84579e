"""Metrics: the windows of seasons, and ids that must stay apart."""

from __future__ import annotations

from datetime import date

import pytest

from pipeline.errors import UserError
from pipeline.metrics.cells import _check
from pipeline.metrics.windows import Season, choose_windows

SEASONS = [Season(str(y), date(y, 4, 1), date(y, 9, 30), 40) for y in range(2012, 2020)]


def event(day: str, before: dict, after: dict) -> dict:
    empty = {"seasons": None, "first": None, "last": None}
    windows = {"before": {**empty, **before}, "after": {**empty, **after}}
    return {"date": day, "trend_from": None, **windows}


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


def test_two_values_of_one_id_are_an_error():
    cells = [{"id": "st-mere", "values": {"ground": name}} for name in ("St Mere", "St. Mere")]
    with pytest.raises(UserError, match=r"'St\. Mere' and 'St Mere' make one id, 'st-mere'"):
        _check(cells, "b", "t")
