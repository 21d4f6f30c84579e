"""Which seasons stand before the event and which after it."""

from __future__ import annotations

from datetime import date
from functools import partial

import pytest

from pipeline.config.topic import OtherEvent
from pipeline.contracts.timing import Neither
from pipeline.errors import UserError
from pipeline.metrics.matches import Played, seasons_of
from pipeline.metrics.windows import choose_windows
from pipeline.significance.rivals import rivals
from pipeline.wording.windows import window_said
from tests.seasons import chosen_windows, event, matches_of, season

SEASONS = [season(year) for year in range(2012, 2020)]


def test_seasons_are_counted_from_the_event():
    found = chosen_windows(SEASONS, event("2016-03-01", {"seasons": 3}, {"seasons": 2}))
    assert (found.before.seasons, found.after.seasons) == (
        ["2013", "2014", "2015"],
        ["2016", "2017"],
    )
    assert found.inside == []


def test_the_season_of_the_event_is_in_neither_window():
    found = chosen_windows(SEASONS, event("2016-06-01", {"seasons": 2}, {"seasons": 2}))
    assert (found.before.seasons, found.after.seasons) == (["2014", "2015"], ["2017", "2018"])
    assert found.inside == ["2016"]


def test_named_seasons_and_dates():
    """Dates are taken to the day: a window may begin in the middle of a season."""
    asked = event(
        "2016-03-01",
        {"first": "2012", "last": "2014"},
        {"first": "2016-06-01", "last": "2018-12-31"},
    )
    found = chosen_windows(SEASONS, asked)
    assert found.before.seasons == ["2012", "2013", "2014"]
    assert found.after.seasons is None
    assert (found.after.first, found.after.last) == (date(2016, 6, 1), date(2018, 12, 31))
    wanted = [
        one for one in matches_of(SEASONS) if date(2016, 6, 1) <= one.first <= date(2018, 12, 31)
    ]
    assert found.after.matches == len(wanted) > 80
    assert found.before.matches == 120


def test_more_seasons_than_there_are_is_an_error_that_says_so():
    with pytest.raises(UserError) as caught:
        chosen_windows(SEASONS, event("2013-03-01", {"seasons": 3}, {"seasons": 9}))
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
    found = chosen_windows(SEASONS, event(day, {"seasons": 2}, {"seasons": 2}))
    assert found.before.seasons[-1] == last_before
    assert found.inside == ([transition] if transition else [])
    assert found.after.seasons[0] == first_after


def test_a_window_of_seasons_never_reaches_over_the_event():
    asked = event(
        "2016-06-01", {"first": "2015", "last": "2018"}, {"first": "2013", "last": "2017"}
    )
    with pytest.raises(UserError) as caught:
        chosen_windows(SEASONS, asked)
    assert [problem.where for problem in caught.value.problems] == ["event.before", "event.after"]
    first, second = (problem.message for problem in caught.value.problems)
    assert "season '2018' can't be in it: it is not before" in first
    assert "season '2013' can't be in it: it is not after" in second


@pytest.mark.parametrize(
    ("before", "after", "gap", "told"),
    [
        (("2014-01-01", "2016-06-01"), ("2016-06-01", "2018-01-01"), None, "end it the day before"),
        (
            ("2014-01-01", "2016-05-31"),
            ("2016-05-31", "2018-01-01"),
            None,
            "begin it on 2016-06-01",
        ),
        (("2014-01-01", "2016-05-31"), ("2016-06-01", "2018-01-01"), "6 months", "on 2016-12-01"),
        (("2003-01-01", "2004-05-31"), ("2016-06-01", "2018-01-01"), None, "no match from 2003"),
    ],
)
def test_a_window_of_dates_never_reaches_over_the_event_nor_is_it_empty(before, after, gap, told):
    ends = [dict(zip(("first", "last"), each, strict=True)) for each in (before, after)]
    with pytest.raises(UserError, match=told) as caught:
        chosen_windows(SEASONS, event("2016-06-01", *ends, gap=gap))
    assert len(caught.value.problems) == 1


def test_years_are_counted_to_the_day():
    """From the day before the event back, from its day, or the end of the settling in, on."""
    found = chosen_windows(SEASONS, event("2016-06-15", {"years": 3}, {"years": 2}))
    assert (found.before.first, found.before.last) == (date(2013, 6, 15), date(2016, 6, 14))
    assert (found.after.first, found.after.last) == (date(2016, 6, 15), date(2018, 6, 14))
    assert (found.before.asked, found.after.asked) == ("3 years", "2 years")
    assert found.inside == []  # days take what a season would leave out
    settled = chosen_windows(
        SEASONS, event("2016-06-15", {"years": 3}, {"years": 2}, gap="1 month")
    )
    assert (settled.after.first, settled.after.last) == (date(2016, 7, 15), date(2018, 7, 14))
    assert settled.neither.between == len(
        [one for one in matches_of(SEASONS) if date(2016, 6, 15) <= one.first < date(2016, 7, 15)]
    )
    leap = chosen_windows(SEASONS, event("2016-02-29", {"years": 1}, {"years": 1}))
    assert (leap.before.first, leap.after.last) == (date(2015, 2, 28), date(2017, 2, 27))


def test_years_that_the_data_do_not_reach_are_an_error_and_part_of_one_is_not():
    """Some of the last year asked for must be there."""
    with pytest.raises(UserError) as caught:
        chosen_windows(SEASONS, event("2016-03-01", {"years": 5}, {"years": 6}))
    first, second = (problem.message for problem in caught.value.problems)
    assert (
        first == "5 years asked before 2016-03-01, and the data begin on 2012-04-01; ask for fewer"
    )
    assert second == "6 years asked after 2016-03-01, and the data end on 2019-09-30; ask for fewer"
    found = chosen_windows(SEASONS, event("2016-05-01", {"years": 4}, {"years": 4}))
    assert found.before.first == date(2012, 5, 1)


def test_every_match_in_neither_window_has_its_reason():
    asked = event("2016-06-01", {"seasons": 2}, {"seasons": 2})
    found = chosen_windows(SEASONS, asked)  # 2014 and 2015 against 2017 and 2018
    assert found.neither == Neither(earlier=80, between=0, inside=40, later=40)
    named = event(
        "2016-03-01", {"first": "2012", "last": "2013"}, {"first": "2018", "last": "2018"}
    )
    assert chosen_windows(SEASONS, named).neither == Neither(
        earlier=0, between=160, inside=0, later=40
    )


def test_a_match_that_ends_beyond_the_window_it_began_in_is_counted():
    """By its first day it is of one side; that it was played on the other too is told."""
    matches = [
        Played("2014", date(2014, 6, 1), date(2014, 6, 1)),
        Played("2015", date(2015, 5, 30), date(2015, 6, 2)),  # over the event
        Played("2015", date(2015, 6, 3), date(2015, 6, 4)),
        Played("2016", date(2016, 5, 31), date(2016, 6, 3)),  # over the end of the year after
    ]
    asked = event("2015-06-01", {"years": 1}, {"years": 1})
    found = choose_windows(matches, seasons_of(matches), asked, "t")
    assert (found.before.matches, found.after.matches, found.straddling) == (2, 2, 2)


def test_a_trend_begins_with_the_first_season_compared_or_before_it():
    asked = partial(event, "2016-03-01", None, None)
    for first in ("2012", "2014"):
        assert chosen_windows(SEASONS, asked(first)).before.seasons[0] == "2014"
    with pytest.raises(UserError, match="'2015' is after 2014, the first season compared"):
        chosen_windows(SEASONS, asked("2015"))
    with pytest.raises(UserError, match=r"no season '20014' \(did you mean '2014'\?\)"):
        chosen_windows(SEASONS, asked("20014"))


@pytest.mark.parametrize("side", ["before", "after"])
def test_windows_of_two_kinds_leave_no_season_out_of_both(side: str):
    """The days take what the seasons leave; what is in neither is between them."""
    asked = {"before": {"seasons": 2}, "after": {"years": 2}}
    if side == "after":
        asked = {"before": {"years": 2}, "after": {"seasons": 2}}
    found = chosen_windows(SEASONS, event("2016-06-15", asked["before"], asked["after"]))
    of_event = [one for one in matches_of(SEASONS) if one.season == "2016"]
    taken = [one for one in of_event if found.side(one.season, one.first) != "outside"]
    assert found.inside == [] and found.neither.inside == 0
    assert 0 < len(taken) < 40 and found.neither.between == 40 - len(taken)


def test_a_window_goes_no_further_than_the_data_in_what_is_told():
    """A window to the end of time is one to the last match, and has no rivals beyond it."""
    ends = [
        {"first": "1900-01-01", "last": "2015-12-31"},
        {"first": "2016-01-01", "last": "9999-12-31"},
    ]
    found = chosen_windows(SEASONS, event("2016-01-01", *ends))
    assert (found.before.begins, found.after.ends) == (date(2012, 4, 1), date(2019, 9, 30))
    assert found.before.cut and found.after.cut
    assert window_said(found.after) == "Jan 2016–Sep 2019"
    also = [OtherEvent(name="the war", date=date(1950, 1, 1))]
    assert rivals(also, date(2016, 1, 1), found) == []


def test_an_event_at_the_edge_of_the_calendar_is_refused_and_no_more():
    with pytest.raises(UserError):
        chosen_windows(SEASONS, event("0001-01-01", {"years": 5}, {"years": 1}))
