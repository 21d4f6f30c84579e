"""Windows of an untidy world, held against counting by hand in the fixture's own list."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from pipeline.contracts.timing import Windows
from tests.calendar_cases import (
    BEATS,
    CASES,
    OF_DAYS,
    OF_SEASONS,
    WORLD,
    Case,
    by_hand,
    clean_world,
    head,
    selected,
)
from tests.calendars import (
    CUP,
    CUP_DAYS,
    CUP_YEARS,
    FEN,
    HOLE,
    MOOR,
    NOTABLE,
    POOL,
    Fixture,
    label,
    matches,
    of,
    washed_out,
)
from tests.tallying import tallied


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return clean_world(tmp_path_factory.mktemp("calendars"))


def windows(clean: Path, folder: Path, case: Case) -> Windows:
    found = selected(clean, folder, case).windows
    assert found is not None
    return found


def counted(found: Windows) -> dict[str, int]:
    there = ("earlier", "between", "inside", "later")
    sides = {"before": found.before.matches, "after": found.after.matches}
    return sides | {name: getattr(found.neither, name) for name in there}


@pytest.mark.parametrize("name", CASES)
def test_every_match_is_counted_once_where_it_belongs(clean: Path, tmp_path: Path, name: str):
    case = CASES[name]
    expected = by_hand(case, of(WORLD, *case.data))
    assert sum(expected.values()) == len(of(WORLD, *case.data))
    assert min(expected["before"], expected["after"]) >= 6
    assert counted(windows(clean, tmp_path, case)) == expected


@pytest.mark.parametrize("name", CASES)
def test_no_window_reaches_over_the_event(clean: Path, tmp_path: Path, name: str):
    case = CASES[name]
    found, event = windows(clean, tmp_path, case), case.day
    assert found.before.first <= found.before.last < event <= found.after.first <= found.after.last
    assert (found.before.asked, found.after.asked) == (case.before, case.after)


@pytest.mark.parametrize("name", OF_SEASONS)
def test_windows_of_seasons_name_them_and_those_of_the_event(
    clean: Path, tmp_path: Path, name: str
):
    case = CASES[name]
    found = windows(clean, tmp_path, case)
    assert tuple(found.before.seasons or ()) == case.left
    assert tuple(found.after.seasons or ()) == case.right
    assert tuple(found.inside) == case.inside


@pytest.mark.parametrize("name", OF_DAYS)
def test_windows_of_days_are_of_no_seasons_and_leave_none_out(
    clean: Path, tmp_path: Path, name: str
):
    found = windows(clean, tmp_path, CASES[name])
    assert found.before.seasons is None and found.after.seasons is None
    assert found.inside == [] and found.neither.inside == 0


@pytest.mark.parametrize(
    ("data", "event", "across"),
    [(POOL, "2014-04-01", 1), ((MOOR,), "2014-06-14", 1), ((FEN,), "2014-04-01", 0)],
)
def test_a_match_across_the_event_belongs_to_the_day_it_began(
    clean: Path, tmp_path: Path, data: tuple[str, ...], event: str, across: int
):
    """Begun on the eve and ended on the day after: it is counted before, and told of."""
    day = date.fromisoformat(event)
    over = [each for each in of(WORLD, *data) if each.first < day <= each.fixture.days[-1]]
    assert len(over) == across
    case = Case(data, event, "3 years", "3 years")
    found = windows(clean, tmp_path, case)
    assert found.straddling == across
    since = day.replace(year=day.year - 3)
    assert found.before.matches == sum(since <= each.first < day for each in of(WORLD, *data))


def test_a_match_without_a_ball_is_counted_nowhere(tmp_path: Path):
    case = CASES["named winters"]
    league = of(WORLD, FEN)
    lost = [date(2009, 12, 1), date(2010, 12, 1), date(2013, 12, 1), date(2016, 12, 1)]
    without = washed_out(*(Fixture(FEN, label(day), (day,)) for day in lost))
    found = tallied(tmp_path, [*without, *matches(league)], BEATS, head=head(case))[1]
    assert found.windows is not None
    assert counted(found.windows) == by_hand(case, league)


# The fixture itself.


def test_the_world_is_as_untidy_as_it_says():
    days = [each.first for each in WORLD]
    assert not [day for day in days if HOLE[0] <= day <= HOLE[1]] and days == sorted(days)
    assert 14 <= (days[-1] - days[0]).days / 365.25 < 15
    by_year = [sum(day.year == year for day in days) for year in range(2009, 2018)]
    assert min(by_year) >= 20 and max(by_year) <= 45
    assert {each.ended for each in WORLD} == {"won", "no result", "reduced"}
    assert {each.fixture.season for each in of(WORLD, *POOL)} >= {"2011", "2011/12", "2012"}
    tour = [each.first for each in of(WORLD, POOL[1]) if each.fixture.season == "2011"]
    assert (tour[0].year, tour[-1].year) == (2011, 2012)
    assert len(of(WORLD, CUP)) == len(CUP_DAYS) * len(CUP_YEARS)


@pytest.mark.parametrize("event", NOTABLE)
def test_somebody_plays_around_every_notable_day(event: date):
    spans = [each.fixture.days for each in of(WORLD, *NOTABLE[event])]
    for competition in NOTABLE[event]:
        spans = [each.fixture.days for each in of(WORLD, competition)]
        assert (event,) in spans
        assert [one for one in spans if len(one) == 3 and one[1] == event]
        assert [one for one in spans if len(one) == 1 and (event - one[0]).days == 1]


def test_by_hand_a_window_is_what_its_days_say():
    """Counted once more, from the calendar: eight days a summer, the hole, a notable day."""
    counts = by_hand(CASES["named summers"], of(WORLD, MOOR))
    assert counts["before"] == 4 * 8 and counts["after"] == 5 * 8 + 3  # three on a notable day
    assert counts["between"] == 8 and counts["inside"] == 0
    assert (counts["earlier"], counts["later"]) == (2 * 8, 8)
