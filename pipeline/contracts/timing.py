"""When: the two windows of a comparison, and the periods that a series is told by."""

from __future__ import annotations

from datetime import date

from pipeline.calendar import middle
from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Unit, UnitBecause

SIDES = ("before", "after")
OUTSIDE = "outside"  # of both windows


class Window(Contract, kw_only=True):
    """The matches of one side: of these seasons, or of the days from `first` to `last`.

    `asked` is as the topic has it. A match belongs to its first day. Of seasons, `first` and `last`
    are the days of their first and their last match; `matches` are those of the topic's data.
    `begins` and `ends` are the same days, but no further than the data go.
    """

    asked: str
    first: date
    last: date
    seasons: list[str] | None
    matches: int
    begins: date
    ends: date

    @property
    def cut(self) -> bool:
        """Whether the data don't reach as far as was asked."""
        return (self.begins, self.ends) != (self.first, self.last)

    def holds(self, season: str, day: date) -> bool:
        """Whether a match of that season and first day is of this side."""
        if self.seasons is not None:
            return season in self.seasons
        return self.first <= day <= self.last

    @property
    def named(self) -> tuple[str, ...]:
        """What it is of, by which two windows are the same or not."""
        return tuple(self.seasons or (f"{self.first} to {self.last}",))


class Neither(Contract, kw_only=True):
    """Matches of the topic's data that are in neither window, by where they lie.

    `inside`: of a season that the event falls inside, where windows are of seasons. What lies in
    its settling in is between them.
    """

    earlier: int
    between: int
    inside: int
    later: int

    @property
    def all(self) -> int:
        return self.earlier + self.between + self.inside + self.later


class Windows(Contract, kw_only=True):
    """The two sides of an event, and what is on neither.

    `inside` are the seasons that it falls inside; `straddling` the matches that began before it, or
    in a window, and ended after that: each is counted by its first day.
    """

    before: Window
    after: Window
    inside: list[str]
    neither: Neither
    straddling: int = 0

    def side(self, season: str, day: date) -> str:
        """'before', 'after' or 'outside'."""
        if self.before.holds(season, day):
            return "before"
        return "after" if self.after.holds(season, day) else OUTSIDE

    @property
    def of_seasons(self) -> bool:
        """Whether both are whole seasons."""
        return self.before.seasons is not None and self.after.seasons is not None


class Period(Contract, kw_only=True):
    """A season, year, quarter: its first and last match, and how many it has in each window.

    `part`: an end of the data that is too short to be held against the others, or what is left of a
    period by a settling in; it is drawn, and no line is fitted to it.
    """

    label: str
    first: date
    last: date
    matches: int
    part: bool = False
    before: int = 0
    after: int = 0

    @property
    def middle(self) -> float:
        """Its middle as a day's number."""
        return middle(self.first, self.last)

    @property
    def side(self) -> str:
        """The window that at least half of its matches are in."""
        for name, count in (("before", self.before), ("after", self.after)):
            if 2 * count >= self.matches:
                return name
        return OUTSIDE


class Timing(Contract, kw_only=True):
    """What an event makes of time; `windows` are none of a topic without one.

    `unit` is the period of its drift, and of the series that ask for no other; `periods` are listed
    by unit, in order of their first match.
    """

    windows: Windows | None
    unit: Unit
    because: UnitBecause = "seasons_follow"
    periods: dict[Unit, list[Period]]


class Timed(Contract, kw_only=True):
    """What has the topic's own timing, and that of each other event that a beat is about."""

    timing: Timing
    others: dict[str, Timing] = {}

    @property
    def windows(self) -> Windows | None:
        return self.timing.windows

    @property
    def unit(self) -> Unit:
        return self.timing.unit

    @property
    def periods(self) -> list[Period]:
        """Those of the topic's drift."""
        return self.timing.periods[self.timing.unit]

    def timing_of(self, about: str | None) -> Timing:
        """That of the event a beat is about; the topic's own where it names none."""
        return self.timing if about is None else self.others[about]
