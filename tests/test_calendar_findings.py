"""What is found in the untidy world is what was planted there: a drift a year, a step at an event.

A drift is the slope of the log rate of each period against time, beside a step: a weighted least
squares sum of the periods' logs. A match lies off the planted line by its wiggle and by the
rounding to whole runs, and a period by those and by how far its matches lie from its middle. If no
period of a side lies off that side's line by more than `off`, the slope is off by no more than
`off` times sum(w |t|) / sum(w t^2), with t the time from the side's weighted mean and w the balls:
Hoelder's inequality. That is the tolerance, computed from the fixture's own list.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from math import log, log1p

import numpy as np
import pytest

from pipeline.contracts.finding import Change
from pipeline.contracts.over_time import StepTest
from tests.calendar_cases import Case, head
from tests.calendars import DRIFT, FEN, MOOR, POOL, YEAR, Played, matches, of, planted, world
from tests.league import findings, league

EVENT, STEP = date(2014, 4, 1), 0.08
BEATS = "  - {kind: trend, id: long, measure: run_rate}"
WORLD = world(EVENT, STEP)
POOLED = Case(POOL, "2014-04-01", "4 years", "3 years")
LEAGUES = [Case((each,), "2014-04-01", "5 seasons", "3 seasons") for each in (FEN, MOOR)]
Found = Callable[..., Change]
Point = Callable[[Played], str]


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Found:
    """Ask the world's run rate: a case, and a period if it is not the topic's own choice."""
    project = league(tmp_path_factory.mktemp("calendars"), matches(WORLD))

    def ask(case: Case, period: str | None = None) -> Change:
        answer = findings(project, BEATS, head(case, period))["long.run_rate"]
        assert isinstance(answer, Change)
        return answer

    return ask


def step_of(finding: Change) -> StepTest:
    assert finding.drift is not None and finding.drift.test is not None
    return finding.drift.test


def a_year(finding: Change) -> float:
    """The drift that was found, as a fraction a year."""
    return step_of(finding).slope.value


def year_of(played: Played) -> str:
    """The twelve months from a first of April that it falls in: whole seasons of either half."""
    return str(played.first.year - (played.first.month < 4))


def season_of(played: Played) -> str:
    return played.fixture.season


def tolerances(played: list[Played], point: Point) -> tuple[float, float]:
    """How far a drift and a step of these periods can lie from the planted ones, as logs.

    The step is the sides' difference less the slope over the time between them, so it is off by no
    more than both sides and that slope together. An end may be left out as a part: the largest.
    """
    first, last = point(played[0]), point(played[-1])
    outs: tuple[set[str], ...] = (set(), {first}, {last}, {first, last})
    kept = [[each for each in played if point(each) not in out] for out in outs]
    both = [_tolerances(each, point) for each in kept]
    return max(slope for slope, _ in both), max(step for _, step in both)


def _tolerances(played: list[Played], point: Point) -> tuple[float, float]:
    periods: dict[str, list[Played]] = {}
    for each in played:
        periods.setdefault(point(each), []).append(each)
    middles = [_middle(some) for some in periods.values()]
    off = np.array([_off(*each) for each in zip(periods.values(), middles, strict=True)])
    time = np.array([day.toordinal() / YEAR for day in middles])
    weight = np.array([sum(each.balls for each in some) for some in periods.values()], float)
    sides = [np.array([day >= EVENT for day in middles]) == after for after in (True, False)]
    later, earlier = (np.average(time[side], weights=weight[side]) for side in sides)
    worst = [np.ptp(off[side]) / 2 for side in sides]
    for side, middle in zip(sides, (later, earlier), strict=True):
        time[side] -= middle
    slope = max(worst) * (weight @ abs(time)) / (weight @ time**2)
    ends = [(off[side].min(), off[side].max()) for side in sides]
    apart = max(ends[0][1] - ends[1][0], ends[1][1] - ends[0][0])
    return float(slope), float(apart + slope * (later - earlier))


def _middle(played: list[Played]) -> date:
    days = [each.first.toordinal() for each in played]
    return date.fromordinal((min(days) + max(days)) // 2)


def _off(played: list[Played], middle: date) -> float:
    """How far the log of their rate lies above what is planted on the middle day."""
    runs, balls = (sum(getattr(each, name) for each in played) for name in ("runs", "balls"))
    return log(runs / balls / planted(middle, EVENT, STEP))


def holds_what_was_planted(finding: Change, played: list[Played], point: Point) -> None:
    slope, step = tolerances(played, point)
    assert slope < DRIFT / 8 and step < STEP / 2  # half the drift, or no step, would be seen
    assert log1p(a_year(finding)) == pytest.approx(log1p(DRIFT), abs=slope)
    assert log1p(step_of(finding).step.value) == pytest.approx(log1p(STEP), abs=step)


def test_two_seasons_a_year_do_not_halve_the_drift(found: Found):
    """Pooled calendars have two seasons a year: by their number the drift would be half."""
    finding = found(POOLED)
    assert finding.drift is not None and finding.drift.unit == "year"
    holds_what_was_planted(finding, of(WORLD, *POOL), year_of)


def test_the_drift_of_years_that_were_asked_for(found: Found):
    holds_what_was_planted(found(POOLED, "year"), of(WORLD, *POOL), year_of)


@pytest.mark.parametrize("case", LEAGUES, ids=lambda case: case.data[0])
def test_a_year_without_a_match_is_a_year_all_the_same(found: Found, case: Case):
    """The seasons of a league are a year apart, but for the hole, where they are two."""
    finding = found(case)
    assert finding.drift is not None and finding.drift.unit == "season"
    holds_what_was_planted(finding, of(WORLD, *case.data), season_of)


def test_by_the_number_of_seasons_the_drift_would_have_been_half():
    """What the tests above can tell apart: the pool's seasons in a row, as if a year each."""
    played = [each for each in of(WORLD, *POOL) if each.first < EVENT]
    seasons = list(dict.fromkeys(season_of(each) for each in played))
    runs, balls = (
        [sum(getattr(each, name) for each in played if season_of(each) == one) for one in seasons]
        for name in ("runs", "balls")
    )
    rates = np.log(np.array(runs) / np.array(balls))
    in_a_row = float(np.polyfit(range(len(seasons)), rates, 1)[0])
    slope, _ = tolerances(of(WORLD, *POOL), year_of)
    assert DRIFT / 3 < in_a_row < 2 * DRIFT / 3 < log1p(DRIFT) - slope


BEFORE = ("5 seasons", "2009/10 to 2013/14", "2009-10-10 to 2014-03-12", "2009-10-01 to 2014-03-31")
AFTER = ("3 seasons", "2014/15 to 2016/17", "2014-10-10 to 2017-03-12", "2014-04-01 to 2017-03-31")
YEARS = ("5 years", "3 years")


@pytest.mark.parametrize("asked", [*zip(BEFORE, AFTER, strict=True), YEARS])
def test_the_same_matches_are_the_same_finding_however_they_are_asked_for(
    found: Found, asked: tuple[str, str]
):
    """Seasons, their labels, their first and last days, days beyond them, years that hold them."""
    one, other = found(LEAGUES[0]), found(Case((FEN,), "2014-04-01", *asked))
    assert (one.a, one.b, one.effect, one.felt) == (other.a, other.b, other.effect, other.felt)
    assert one.drift == other.drift
    assert (one.verdict, one.because) == (other.verdict, other.because)


def test_a_side_is_what_its_matches_sum_to(found: Found):
    finding = found(POOLED)
    for side, first, last in (
        (finding.a, date(2010, 4, 1), date(2014, 3, 31)),
        (finding.b, date(2014, 4, 1), date(2017, 3, 31)),
    ):
        there = [each for each in of(WORLD, *POOL) if first <= each.first <= last]
        runs, balls = (sum(getattr(each, name) for each in there) for name in ("runs", "balls"))
        assert (side.matches, side.balls, side.numerator) == (len(there), balls, runs)
        assert side.value == pytest.approx(6 * runs / balls)
