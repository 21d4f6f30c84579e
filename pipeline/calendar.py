"""Months on, and the stretches of months that a calendar is cut into."""

from __future__ import annotations

import calendar
from datetime import date

MONTHS = 12
YEAR = 365.25  # days
NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def months_on(day: date, months: int) -> date:
    """The same day so many months on; of a shorter month its last. It stays in the calendar."""
    years, month = divmod(day.month - 1 + months, MONTHS)
    year = min(max(day.year + years, date.min.year), date.max.year)
    last = calendar.monthrange(year, month + 1)[1]
    return date(year, month + 1, min(day.day, last))


def days_on(day: date, days: int) -> date:
    """So many days on, or back; it stays in the calendar."""
    number = day.toordinal() + days
    return date.fromordinal(min(max(number, date.min.toordinal()), date.max.toordinal()))


def middle(first: date, last: date) -> float:
    """Halfway between two days, as a day's number."""
    return (first.toordinal() + last.toordinal()) / 2


def as_day(value: date | str) -> date:
    """A day of a table, whether it is kept as a date or as text."""
    return date.fromisoformat(value) if isinstance(value, str) else value


def stretch(day: date, anchor: date, months: int) -> int:
    """Which stretch of so many months a day is in, counted from the anchor, whose own is 0."""
    count = ((day.year - anchor.year) * MONTHS + day.month - anchor.month) // months
    while months_on(anchor, count * months) > day:
        count -= 1
    while months_on(anchor, (count + 1) * months) <= day:
        count += 1
    return count
