"""Which period a match is of: its season, or a stretch of the calendar laid from the event's day.

Laid from there no period straddles the event, so that none is half before it and half after.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from pipeline.calendar import MONTHS, NAMES, YEAR, middle, months_on, stretch
from pipeline.contracts.codes import Unit
from pipeline.contracts.selection import Season

if TYPE_CHECKING:
    from pipeline.config.event_views import EventDates

LENGTH: dict[Unit, int] = {"year": 12, "half-year": 6, "quarter": 3, "month": 1}  # months
NEW_YEAR = date(2000, 1, 1)
DAYS = YEAR / MONTHS  # of a month


class Grid(NamedTuple):
    """A unit, and where its stretches are laid from: the event, and the end of its settling in."""

    unit: Unit
    event: date | None = None
    settled: date | None = None

    def begins(self, day: date) -> date:
        """The first day of the stretch that a day is in."""
        anchor, months = self._anchor(day), LENGTH[self.unit]
        return months_on(anchor, stretch(day, anchor, months) * months)

    def _anchor(self, day: date) -> date:
        if self.settled and day >= self.settled:
            return self.settled
        return self.event or NEW_YEAR

    def label(self, season: str, day: date) -> str:
        """The name of the period that a match of that season and first day is of."""
        return season if self.unit == "season" else label_of(self.unit, self.begins(day))

    @classmethod
    def of(cls, unit: Unit, event: EventDates | None) -> Grid:
        """Laid from an event, or from the turn of the year without one."""
        return cls(unit, event.date, event.settled) if event else cls(unit)

    def labels(self, seasons: Iterable[str], days: Iterable[date]) -> list[str]:
        """Those of many matches; each day is looked up once."""
        if self.unit == "season":
            return list(seasons)
        known: dict[date, str] = {}
        found = []
        for day in days:
            if day not in known:
                known[day] = self.label("", day)
            found.append(known[day])
        return found

    def between(self, first: date, last: date) -> list[str]:
        """The names of all stretches from one day to another, with those of no match.

        What the settling in leaves of one is none of them.
        """
        found, day = [], self.begins(first)
        while day <= last:
            if not self.settling(day):
                found.append(label_of(self.unit, day))
            day = self._next(day)
        return found

    def place(self, first: date, last: date) -> float:
        """The middle of two days on an axis of time that counts in stretches."""
        return middle(first, last) / (LENGTH[self.unit] * DAYS)

    def settling(self, day: date) -> bool:
        """Whether a day is of the settling in after the event."""
        return bool(self.event and self.settled and self.event <= day < self.settled)

    def _next(self, begun: date) -> date:
        """The first day of the stretch after the one that begins so."""
        anchor, months = self._anchor(begun), LENGTH[self.unit]
        after = months_on(anchor, (stretch(begun, anchor, months) + 1) * months)
        return self.settled if self.settled and begun < self.settled < after else after


def overlap(seasons: Sequence[Season]) -> bool:
    """Whether one begins before another is over; they come in order of their first day."""
    latest = date.min
    for one in seasons:
        if one.first <= latest:
            return True
        latest = max(latest, one.last)
    return False


def label_of(unit: Unit, begins: date) -> str:
    """'2016', '2016 Q3', 'Oct 2016' of the calendar's own; else 'year from 30 Oct 2016'."""
    month, year = NAMES[begins.month - 1], begins.year
    if begins.day == 1 and (begins.month - 1) % LENGTH[unit] == 0:
        named: dict[Unit, str] = {
            "year": f"{year}",
            "half-year": f"{month} to {NAMES[(begins.month + 4) % MONTHS]} {year}",
            "quarter": f"{year} Q{(begins.month + 2) // 3}",
            "month": f"{month} {year}",
        }
        return named[unit]
    day = "" if begins.day == 1 else f"{begins.day} "
    return f"{unit} from {day}{month} {year}"
