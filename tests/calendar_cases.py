"""What may be asked of the untidy world, with what is in each window by hand; and the counting.

What a window holds is written out beside what was asked for: as the labels of its seasons, or as
its first and last day. Nothing here knows how the pipeline chooses.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import NamedTuple

from pipeline.contracts.selection import Selection
from tests.builders import cleaned
from tests.calendars import CUP, FAR, FEN, MOOR, POOL, Played, matches, world
from tests.tallying import tallied_of

WORLD = world(date(2014, 4, 1))
BEATS = "  - {kind: before_after, id: rate, measure: run_rate}"
HEAD = """title: A question
question: What happened?
data: {{competition: {data}, format: one-day}}
event: {{name: the hail, date: {event}, before: {before}, after: {after}{more}}}
"""


class Days(NamedTuple):
    """From a first day to a last one, both in it."""

    first: date
    last: date


Labels = tuple[str, ...]


class Case(NamedTuple):
    """What is asked, and what by hand is in it; `inside` are the seasons of the event."""

    data: tuple[str, ...]
    event: str
    before: str
    after: str
    left: Days | Labels = ()
    right: Days | Labels = ()
    gap: str | None = None
    inside: Labels = ()

    @property
    def day(self) -> date:
        return date.fromisoformat(self.event)


def days(first: str, last: str) -> Days:
    return Days(date.fromisoformat(first), date.fromisoformat(last))


FIVE = ("2009/10", "2010/11", "2011/12", "2012/13", "2013/14")
AFTER_INSIDE = ("2012/13", "2013/14", "2014/15", "2015/16", "2016/17")
CASES = {
    "years between seasons, on the first of a month": Case(
        *(POOL, "2014-04-01", "4 years", "3 years"),
        days("2010-04-01", "2014-03-31"),
        days("2014-04-01", "2017-03-31"),
    ),
    "years that reach over the hole": Case(
        *(POOL, "2014-04-01", "7 years", "1 year"),
        days("2007-04-01", "2014-03-31"),
        days("2014-04-01", "2015-03-31"),
    ),
    "years after half a year that is left out": Case(
        *(POOL, "2014-04-01", "4 years", "3 years"),
        days("2010-04-01", "2014-03-31"),
        days("2014-10-01", "2017-09-30"),
        gap="6 months",
    ),
    "years inside a season, which they cut": Case(
        *((MOOR,), "2014-06-14", "4 years", "3 years"),
        days("2010-06-14", "2014-06-13"),
        days("2014-06-14", "2017-06-13"),
    ),
    "years from 29 February to the next one": Case(
        *(POOL, "2012-02-29", "4 years", "4 years"),
        days("2008-02-29", "2012-02-28"),
        days("2012-02-29", "2016-02-28"),
    ),
    "years from 29 February to years that have none": Case(
        *(POOL, "2012-02-29", "5 years", "5 years"),
        days("2007-02-28", "2012-02-28"),
        days("2012-02-29", "2017-02-27"),
    ),
    "years after a month from 31 January": Case(
        *((FEN,), "2013-01-31", "4 years", "2 years"),
        days("2009-01-31", "2013-01-30"),
        days("2013-02-28", "2015-02-27"),
        gap="1 month",
    ),
    "years after six months from 31 January": Case(
        *((FAR,), "2013-01-31", "4 years", "2 years"),
        days("2009-01-31", "2013-01-30"),
        days("2013-07-31", "2015-07-30"),
        gap="6 months",
    ),
    "years after four weeks": Case(
        *((FEN,), "2013-01-31", "4 years", "2 years"),
        days("2009-01-31", "2013-01-30"),
        days("2013-02-28", "2015-02-27"),
        gap="4 weeks",
    ),
    "years after one day": Case(
        *((FAR,), "2014-06-14", "2 years", "2 years"),
        days("2012-06-14", "2014-06-13"),
        days("2014-06-15", "2016-06-14"),
        gap="1 day",
    ),
    "years after a year that is left out": Case(
        *((MOOR,), "2014-04-01", "2 years", "2 years"),
        days("2012-04-01", "2014-03-31"),
        days("2015-04-01", "2017-03-31"),
        gap="1 year",
    ),
    "dates whose ends belong to them": Case(
        *((MOOR,), "2014-06-14", "2009-05-03 to 2013-08-16", "2014-07-05 to 2016-07-26"),
        days("2009-05-03", "2013-08-16"),
        days("2014-07-05", "2016-07-26"),
    ),
    "dates up to the event and from it on": Case(
        *(POOL, "2014-06-14", "2011-12-30 to 2014-06-13", "2014-06-14 to 2016-01-02"),
        days("2011-12-30", "2014-06-13"),
        days("2014-06-14", "2016-01-02"),
    ),
    "seasons with the event between them": Case(
        *((FEN,), "2014-04-01", "5 seasons", "3 seasons"),
        FIVE,
        ("2014/15", "2015/16", "2016/17"),
    ),
    "seasons with the event inside one, on 29 February": Case(
        *((FEN,), "2012-02-29", "5 seasons", "5 seasons"),
        ("2005/06", "2006/07", "2007/08", "2009/10", "2010/11"),
        AFTER_INSIDE,
        inside=("2011/12",),
    ),
    "seasons with the event inside one, on 31 January": Case(
        *((FEN,), "2013-01-31", "3 seasons", "2 seasons"),
        ("2009/10", "2010/11", "2011/12"),
        ("2013/14", "2014/15"),
        inside=("2012/13",),
    ),
    "summers with the event inside one": Case(
        *((MOOR,), "2014-06-14", "6 seasons", "2 seasons"),
        ("2007", "2009", "2010", "2011", "2012", "2013"),
        ("2015", "2016"),
        inside=("2014",),
    ),
    "seasons after half a year: none of them is touched": Case(
        *((FEN,), "2014-04-01", "5 seasons", "3 seasons"),
        FIVE,
        ("2014/15", "2015/16", "2016/17"),
        gap="6 months",
    ),
    "seasons after a year: one is left out": Case(
        *((FEN,), "2014-04-01", "5 seasons", "2 seasons"),
        FIVE,
        ("2015/16", "2016/17"),
        gap="12 months",
    ),
    "a season that begins before settling in is over is left out whole": Case(
        *((MOOR,), "2014-04-01", "5 seasons", "2 seasons"),
        ("2009", "2010", "2011", "2012", "2013"),
        ("2015", "2016"),
        gap="2 months",
    ),
    "named summers": Case(
        *((MOOR,), "2011-12-01", "2006 to 2010", "2012 to 2016"),
        ("2006", "2007", "2009", "2010"),
        ("2012", "2013", "2014", "2015", "2016"),
    ),
    "named summers before": Case(
        *((MOOR,), "2017-03-01", "2012 to 2016", "2017 to 2017"),
        ("2012", "2013", "2014", "2015", "2016"),
        ("2017",),
    ),
    "named winters": Case(
        *((FEN,), "2011-05-10", "2005/06 to 2009/10", "2011/12 to 2014/15"),
        ("2005/06", "2006/07", "2007/08", "2009/10"),
        ("2011/12", "2012/13", "2013/14", "2014/15"),
    ),
    "two editions in the year of the event, which comes between them": Case(
        *((CUP,), "2012-06-01", "2 seasons", "1 season"),
        ("2006", "2010"),
        ("2016",),
        inside=("2012",),
    ),
    "seasons of both halves that overlap": Case(
        *(POOL, "2014-04-01", "4 seasons", "3 seasons"),
        ("2012", "2012/13", "2013", "2013/14"),
        ("2014/15", "2015", "2015/16"),
        inside=("2014",),
    ),
}
OF_DAYS = [name for name, case in CASES.items() if isinstance(case.left, Days)]
OF_SEASONS = [name for name in CASES if name not in OF_DAYS]


def clean_world(folder: Path) -> Path:
    """The world's clean tables."""
    members = {f"m{at}.json": each for at, each in enumerate(matches(WORLD))}
    return cleaned(folder, only=members)


def head(case: Case, period: str | None = None) -> str:
    """The topic's file down to its beats."""
    more = f", gap_after: {case.gap}" if case.gap else ""
    more += f", period: {period}" if period else ""
    asked = case._asdict() | {"data": f"[{', '.join(case.data)}]", "more": more}
    return HEAD.format(**asked)


def selected(clean: Path, folder: Path, case: Case, period: str | None = None) -> Selection:
    return tallied_of(clean, folder, BEATS, head=head(case, period))[1]


def by_hand(case: Case, played: list[Played]) -> dict[str, int]:
    """How many matches are where, counted one by one."""
    first = min(each.first for each in played if holds(case.left, each))
    last = max(each.first for each in played if holds(case.right, each))
    counts = dict.fromkeys(("before", "after", "earlier", "between", "inside", "later"), 0)
    for each in played:
        counts[_place(case, each, first, last)] += 1
    return counts


def holds(held: Days | Labels, played: Played) -> bool:
    if isinstance(held, Days):
        return held.first <= played.first <= held.last
    return played.fixture.season in held


def _place(case: Case, each: Played, first: date, last: date) -> str:
    if holds(case.left, each):
        return "before"
    if holds(case.right, each):
        return "after"
    if each.fixture.season in case.inside:
        return "inside"
    return "earlier" if each.first < first else "later" if each.first > last else "between"
