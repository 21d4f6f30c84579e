"""An invented untidy world of matches: two halves with their own calendars, and what cuts across.

A southern league has split-year labels (October to March), a northern one single years (April to
September). Sides of both meet in a pool that is labelled by where it is played; tours straddle New
Year, one of them under the year it began in; a cup has two editions in some years. From April 2008
to March 2009 nobody played. Some matches end without a result, some chases are cut short, and
around each of the NOTABLE days somebody played on the eve, on the day, and across it.

What is scored a ball drifts by the day that a match begins, and steps at the event. Nothing here
asks the pipeline anything: tests count and compute from the list itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import exp, log1p
from typing import Any, NamedTuple

from tests.builders import delivery, match

FEN, MOOR, FAR, TOUR, CUP = "Fen Shield", "Moor Shield", "Far Trophy", "Holm Tour", "Tarn Cup"
POOL = (FAR, TOUR)
SOUTH, NORTH = ("Southfen", "Eastholm", "Saltness"), ("Northmoor", "Westfold", "Cragside")
# Begun in these years: seasons from 2003/04 to 2017/18, and from 2004 to 2017.
YEARS = range(2003, 2018)
HOLE = (date(2008, 4, 1), date(2009, 3, 31))
# Days on which something may happen, and who plays around them.
NOTABLE = {
    date(2012, 2, 29): (FAR, FEN),  # inside the southern season
    date(2013, 1, 31): (FAR, FEN),
    date(2014, 4, 1): (FAR,),  # between the seasons of both leagues
    date(2014, 6, 14): (FAR, MOOR),  # inside the northern season
}
# Days of the pool on either side of where windows of whole years from 29 February end.
LEAP = ((2007, 2, 28), (2008, 2, 28), (2008, 2, 29), (2016, 2, 28), (2016, 2, 29), (2017, 2, 28))
MONTH_ON = ((2013, 2, 27), (2013, 2, 28))  # a month after 31 January, and the day before that

FEN_DAYS = ((10, 10), (11, 7), (11, 28), (12, 19), (1, 9), (1, 30), (2, 20), (3, 12))
MOOR_DAYS = ((4, 12), (5, 3), (5, 24), (6, 13), (7, 5), (7, 26), (8, 16), (9, 13))
FAR_SOUTH, FAR_NORTH = FEN_DAYS[:6], MOOR_DAYS[1:7]
FAR_EARLY = (3, 6)  # of even years: a northern ground plays before the southern summer is over
TOUR_DAYS = ((12, 27), (12, 30), (1, 2), (1, 5))
TOURS = {2004: "2004/05", 2009: "2009/10", 2011: "2011", 2015: "2015/16"}
CUP_YEARS = (2006, 2010, 2012, 2016)
CUP_DAYS = ((3, 3), (3, 8), (3, 11), (10, 4), (10, 9), (10, 12))  # two editions

DRIFT = 0.03  # a year
RATE = 8.0  # runs a ball on ORIGIN; high, so that whole runs say it well
ORIGIN = date(2010, 1, 1)
YEAR = 365.25  # days
WIGGLES = (0.0, 0.006, -0.004, 0.008, -0.01, 0.002, -0.002)  # of the log; they add up to none


class Fixture(NamedTuple):
    """A match that is to be played; `days` are those it took, the first of them its date."""

    competition: str
    season: str
    days: tuple[date, ...]

    @property
    def first(self) -> date:
        return self.days[0]


class Played(NamedTuple):
    """A match that was played; `ended` is 'won', 'no result' or 'reduced'."""

    fixture: Fixture
    balls: int
    runs: int
    ended: str

    @property
    def first(self) -> date:
        return self.fixture.first


def label(day: date) -> str:
    """The season as the half that plays then writes it: 2011/12 to March, 2012 from April on."""
    if 4 <= day.month <= 9:
        return str(day.year)
    begun = day.year if day.month >= 10 else day.year - 1
    return f"{begun}/{(begun + 1) % 100:02}"


def world(event: date, step: float = 0.0, drift: float = DRIFT) -> list[Played]:
    """Every match in order of its first day; scoring steps by the fraction `step` on `event`."""
    fixtures = sorted(_fixtures(), key=lambda each: (each.first, each.competition, each.days))
    return [_played(at, each, event, step, drift) for at, each in enumerate(fixtures)]


def of(played: list[Played], *competitions: str) -> list[Played]:
    return [each for each in played if each.fixture.competition in competitions]


def planted(day: date, event: date, step: float = 0.0, drift: float = DRIFT) -> float:
    """Runs a ball of a match that begins on this day, before its wiggle."""
    years = (day - ORIGIN).days / YEAR
    return RATE * exp(years * log1p(drift)) * (1 + step if day >= event else 1)


def _played(at: int, fixture: Fixture, event: date, step: float, drift: float) -> Played:
    ended = "no result" if at % 23 == 11 else "reduced" if at % 17 == 5 else "won"
    balls = 3 if ended == "no result" else 6 + 5 * at % 7
    rate = planted(fixture.first, event, step, drift) * exp(WIGGLES[at % len(WIGGLES)])
    return Played(fixture, balls, round(balls * rate), ended)


def _fixtures() -> Iterator[Fixture]:
    for found in (*_seasons(), *_tours_and_cups(), *_notable()):
        if not HOLE[0] <= found.first <= HOLE[1]:
            yield found


def _seasons() -> Iterator[Fixture]:
    for begun in YEARS:
        south = {FEN: FEN_DAYS, FAR: FAR_SOUTH}
        for competition, days in south.items():
            yield from (_on(competition, _southern(begun, day)) for day in days)
        if begun == YEARS[-1]:  # the last northern season is that of the year it is
            return
        north = {MOOR: MOOR_DAYS, FAR: FAR_NORTH}
        for competition, days in north.items():
            yield from (_on(competition, date(begun + 1, *day)) for day in days)
        if begun % 2:
            yield Fixture(FAR, str(begun + 1), (date(begun + 1, *FAR_EARLY),))


def _tours_and_cups() -> Iterator[Fixture]:
    for begun, season in TOURS.items():
        yield from (Fixture(TOUR, season, (_southern(begun, day),)) for day in TOUR_DAYS)
    for year in CUP_YEARS:
        yield from (Fixture(CUP, str(year), (date(year, *day),)) for day in CUP_DAYS)


def _notable() -> Iterator[Fixture]:
    """On the eve, on the day, and begun on the eve to end on the day after."""
    one = timedelta(days=1)
    for day, competitions in NOTABLE.items():
        for competition in competitions:
            yield _on(competition, day - one, day, day + one)
            yield _on(competition, day - one)
            yield _on(competition, day)
    yield from (_on(FAR, date(*day)) for day in LEAP)
    yield from (_on(FEN, date(*day)) for day in MONTH_ON)


def _on(competition: str, *days: date) -> Fixture:
    return Fixture(competition, label(days[0]), days)


def _southern(begun: int, day: tuple[int, int]) -> date:
    """A day of the summer that began in this year."""
    return date(begun + (day[0] < 10), *day)


def matches(played: list[Played]) -> list[dict[str, Any]]:
    """The match files of these, the last first, since files come in no order."""
    return [_match(at, each) for at, each in reversed(list(enumerate(played)))]


def washed_out(*fixtures: Fixture) -> list[dict[str, Any]]:
    """Matches that were to be played then, without a ball."""
    made = matches([Played(each, 0, 0, "no result") for each in fixtures])
    return [{**each, "innings": []} for each in made]


def _match(at: int, played: Played) -> dict[str, Any]:
    bat, bowl = _sides(at, played.fixture.competition)
    outcome = {"result": "no result"} if played.ended == "no result" else {"winner": bat}
    made = match(
        [],
        dates=[day.isoformat() for day in played.fixture.days],
        event={"name": played.fixture.competition},
        outcome=outcome,
        players={bat: ["A Batt", "B Batt", "C Batt"], bowl: ["Q Bowl"]},
        season=played.fixture.season,
        teams=[bat, bowl],
        team_type="international" if played.fixture.competition in POOL else "club",
        toss={"winner": bat, "decision": "bat"},
    )
    first, more = divmod(played.runs, max(played.balls, 1))
    balls = [delivery(first + (ball < more)) for ball in range(played.balls)]
    made["innings"] = [{"team": bat, "overs": _overs(balls)}]
    if played.ended == "reduced":
        cut = {"team": bowl, "overs": [], "target": {"runs": played.runs + 1, "overs": 20}}
        made["innings"].append(cut)
    return made


def _overs(balls: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{"over": at // 6, "deliveries": balls[at : at + 6]} for at in range(0, len(balls), 6)]


def _sides(at: int, competition: str) -> tuple[str, str]:
    """Of one half in its league, of both where both meet; whoever bats first changes."""
    home, away = {FEN: (SOUTH, SOUTH), MOOR: (NORTH, NORTH)}.get(competition, (SOUTH, NORTH))
    pair = (home[at % 3], away[(at + 1) % 3])
    return pair if at % 2 else (pair[1], pair[0])
