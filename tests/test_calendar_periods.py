"""The periods of an untidy world: none reaches over the event, and each holds what it should."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tests.calendar_cases import CASES, WORLD, Case, clean_world, selected
from tests.calendars import FEN, NOTABLE, POOL, Played, of


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return clean_world(tmp_path_factory.mktemp("calendars"))


# Longest from a first day to a last one, in days.
LENGTHS = {"year": 365, "half-year": 183, "quarter": 91, "month": 30}
MONTHS = {"year": 12, "half-year": 6, "quarter": 3, "month": 1}


def onward(day: date, months: int) -> date:
    """The same day of another month, or that month's last where it has no such day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    for last in range(day.day, 27, -1):
        try:
            return date(year, month + 1, last)
        except ValueError:
            continue
    return date(year, month + 1, day.day)


def shares(played: list[Played], event: date, months: int) -> list[int]:
    """Matches of every stretch of so many months counted from the event; those without left out."""
    reach = range(-12 * 15 // months, 12 * 15 // months)
    ends = [(onward(event, at * months), onward(event, (at + 1) * months)) for at in reach]
    counts = [sum(low <= each.first < high for each in played) for low, high in ends]
    assert sum(counts) == len(played)
    return [count for count in counts if count]


def around(event: date) -> Case:
    return Case(POOL, event.isoformat(), "3 years", "3 years")


@pytest.mark.parametrize("period", LENGTHS)
@pytest.mark.parametrize("event", NOTABLE)
def test_no_period_reaches_over_the_event(clean: Path, tmp_path: Path, event: date, period: str):
    found = selected(clean, tmp_path, around(event), period)
    assert found.unit == period
    for each in found.periods:
        assert each.last < event or each.first >= event
        assert 0 <= (each.last - each.first).days <= LENGTHS[period]
    pairs = zip(found.periods, found.periods[1:], strict=False)
    assert all(one.last < other.first for one, other in pairs)
    assert sum(each.matches for each in found.periods) == len(of(WORLD, *POOL))
    assert len({each.label for each in found.periods}) == len(found.periods)


@pytest.mark.parametrize("event", NOTABLE)
def test_a_year_is_twelve_months_counted_from_the_event(clean: Path, tmp_path: Path, event: date):
    found = selected(clean, tmp_path, around(event), "year")
    told = [each.matches for each in found.periods if each.matches]
    assert told == shares(of(WORLD, *POOL), event, 12)


@pytest.mark.parametrize("period", LENGTHS)
def test_from_the_first_of_april_every_stretch_is_one_of_the_calendar(
    clean: Path, tmp_path: Path, period: str
):
    event = date(2014, 4, 1)
    found = selected(clean, tmp_path, around(event), period)
    told = [each.matches for each in found.periods if each.matches]
    assert told == shares(of(WORLD, *POOL), event, MONTHS[period])


def test_where_calendars_overlap_the_period_is_a_year(clean: Path, tmp_path: Path):
    assert selected(clean, tmp_path, around(date(2014, 4, 1))).unit == "year"


def test_a_league_with_the_event_between_its_seasons_goes_by_seasons(clean: Path, tmp_path: Path):
    """The season that a hole took is not there; the others are whole."""
    found = selected(clean, tmp_path, CASES["seasons with the event between them"])
    assert found.unit == "season"
    seasons = sorted({each.fixture.season for each in of(WORLD, FEN)})
    assert [each.label for each in found.periods] == seasons
    assert "2008/09" not in seasons


def test_dates_that_cut_a_season_make_years(clean: Path, tmp_path: Path):
    found = selected(clean, tmp_path, CASES["years inside a season, which they cut"])
    assert found.unit == "year"


def test_part_periods_at_the_ends_are_marked(clean: Path, tmp_path: Path):
    """From November to October the first year has one match in its last month, the last a quarter.

    A year of which nothing was played in half, in the middle of the series, is no end.
    """
    found = selected(clean, tmp_path, around(date(2014, 11, 1)), "year")
    played = [each for each in found.periods if each.matches]
    assert played[0].matches == 1 and played[0].last < date(2003, 11, 1)
    assert [each.part for each in played] == [True] + [False] * (len(played) - 2) + [True]


def test_an_end_that_is_whole_is_not_marked(clean: Path, tmp_path: Path):
    """From October to September the first year has both summers, whole."""
    found = selected(clean, tmp_path, around(date(2014, 10, 1)), "year")
    assert not found.periods[0].part and found.periods[-1].part
