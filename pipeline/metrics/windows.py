"""Which seasons stand before the event and which after it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from pipeline.contracts.selection import Season, Windows
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.sql import quoted_list

if TYPE_CHECKING:
    from pipeline.config.fields import Window
    from pipeline.config.views import EventDates


def window_sql(windows: Windows) -> str:
    """The window of a match; the other seasons are 'outside', for the drift."""
    before, after = (quoted_list(labels) for labels in (windows.before, windows.after))
    return (
        f"CASE WHEN m.season IN ({before}) THEN 'before' "
        f"WHEN m.season IN ({after}) THEN 'after' ELSE 'outside' END"
    )


def choose_windows(seasons: list[Season], event: EventDates, file: str) -> Windows:
    """The seasons of each window; asking for more than the data hold is an error that says so."""
    day = event.date
    inside = [s.label for s in seasons if s.first < day <= s.last]
    earlier = [s for s in seasons if s.last < day]
    later = [s for s in seasons if s.first >= day]
    problems: list[Problem] = []
    before = _pick(earlier, event.before, "before", day, file, problems)
    after = _pick(later, event.after, "after", day, file, problems)
    problems += _check_trend([season.label for season in seasons], event.trend_from, before, file)
    if problems:
        raise UserError(problems)
    return Windows(before=before, after=after, transition=inside[0] if inside else None)


def _check_trend(
    labels: list[str], first: str | None, before: list[str], file: str
) -> list[Problem]:
    """The trend begins at a season of the data, and no later than the first window."""
    if first is None:
        return []
    where = "event.trend_from"
    if first not in labels:
        return [Problem(file, f"no season '{first}'{did_you_mean(first, labels)}", where=where)]
    if before and labels.index(first) > labels.index(before[0]):
        message = (
            f"'{first}' is after {before[0]}, the first season compared; begin the trend there"
        )
        return [Problem(file, f"{message} or earlier", where=where)]
    return []


def _pick(
    seasons: list[Season],
    window: Window,
    side: str,
    day: date,
    file: str,
    problems: list[Problem],
) -> list[str]:
    labels = [season.label for season in seasons]
    there = ", ".join(labels) or "none"
    where = f"event.{side}"
    if window.seasons:
        if len(labels) < window.seasons:
            message = f"{window.seasons} seasons asked; the data hold {len(labels)} ({there})"
            problems.append(Problem(file, f"{message} {side} {day}", where=where))
        count = window.seasons
        return labels[-count:] if side == "before" else labels[:count]
    picked = [s.label for s in seasons if _within(s, labels, window)]
    if not picked:
        message = f"no season from {window.first} to {window.last} {side} {day}"
        problems.append(Problem(file, f"{message}; the data hold {there}", where=where))
    return picked


def _within(season: Season, labels: list[str], window: Window) -> bool:
    first, last = window.first or "", window.last or ""
    if window.dated:
        return date.fromisoformat(first) <= season.first and season.last <= date.fromisoformat(last)
    if first not in labels or last not in labels:
        return False
    return labels.index(first) <= labels.index(season.label) <= labels.index(last)
