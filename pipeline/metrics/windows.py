"""Which matches stand before the event and which after it, to the day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from pipeline.calendar import MONTHS, days_on, months_on
from pipeline.contracts.selection import Season
from pipeline.contracts.timing import SIDES, Window, Windows
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.metrics.matches import Played
from pipeline.metrics.neither import counted
from pipeline.text import listed
from pipeline.trend import trend_start

if TYPE_CHECKING:
    from pipeline.config.event_views import EventDates
    from pipeline.config.when import Window as Wanted


def choose_windows(
    matches: Sequence[Played], seasons: list[Season], event: EventDates, file: str
) -> Windows:
    """Both windows, and what is in neither.

    Raises UserError for a window without matches, for more than the data hold, and for one that
    reaches over the event.
    """
    inside = [one.label for one in seasons if one.first < event.date <= one.last]
    problems: list[Problem] = []
    sides = []
    for name in SIDES:
        found = _chosen(name, matches, seasons, inside, event)
        if isinstance(found, str):
            where = event.before_at if name == "before" else event.after_at
            problems.append(Problem(file, f"{event.told}{found}", where=where))
        else:
            sides.append(found)
    if len(sides) == len(SIDES):
        wrong = _wrong_start(seasons, event, _first_day(matches, sides[0]))
        problems += [Problem(file, wrong, where="event.trend_from")] if wrong else []
    if problems:
        raise UserError(problems)
    before, after = sides
    both = before.seasons is not None and after.seasons is not None
    return counted(matches, before, after, inside if both else [], event.date)


def _chosen(
    side: str,
    matches: Sequence[Played],
    seasons: list[Season],
    inside: list[str],
    event: EventDates,
) -> Window | str:
    """One window; or what is wrong with it."""
    wanted = event.before if side == "before" else event.after
    if not wanted.of_seasons:
        return _of_days(side, wanted, matches, event)
    if side == "before":
        there = [one for one in seasons if one.last < event.date]
    else:
        there = [one for one in seasons if one.first >= event.settled]
    return _of_seasons(side, wanted, matches, seasons, there, inside, event)


def _of_days(
    side: str, wanted: Wanted, matches: Sequence[Played], event: EventDates
) -> Window | str:
    first, last = _ends(side, wanted, event)
    if side == "before" and last >= event.date:
        return (
            f"'{wanted}' reaches over the event ({event.date}); end it the day before at the latest"
        )
    if side == "after" and first < event.settled:
        settled = (
            f"{event.date} and its gap_after" if event.gap_after else f"the event ({event.date})"
        )
        return f"'{wanted}' begins before {settled} is over; begin it on {event.settled}"
    days = [match.first for match in matches]
    inside = [day for day in days if first <= day <= last]
    if not inside:
        return f"no match from {first} to {last}; the data hold {min(days)} to {max(days)}"
    if wanted.years and (short := _short(side, first, last, days)):
        return f"{wanted} asked {side} {event.date}, and the data {short}; ask for fewer"
    return Window(
        asked=str(wanted),
        first=first,
        last=last,
        seasons=None,
        matches=len(inside),
        begins=max(first, min(days)),
        ends=min(last, max(days)),
    )


def _ends(side: str, wanted: Wanted, event: EventDates) -> tuple[date, date]:
    """The first and the last day of a window of years or of two dates."""
    if wanted.years is None:
        return date.fromisoformat(wanted.first or ""), date.fromisoformat(wanted.last or "")
    months = wanted.years * MONTHS
    if side == "before":
        return months_on(event.date, -months), days_on(event.date, -1)
    return event.settled, days_on(months_on(event.settled, months), -1)


def _short(side: str, first: date, last: date, days: list[date]) -> str:
    """How the data stop a whole year or more short of a window's far end; '' where they don't."""
    if side == "before" and min(days) >= months_on(first, MONTHS):
        return f"begin on {min(days)}"
    if side == "after" and max(days) < months_on(days_on(last, 1), -MONTHS):
        return f"end on {max(days)}"
    return ""


def _of_seasons(
    side: str,
    wanted: Wanted,
    matches: Sequence[Played],
    seasons: list[Season],
    there: list[Season],
    inside: list[str],
    event: EventDates,
) -> Window | str:
    labels = [one.label for one in there]
    hold = ", ".join(labels) or "none"
    if wanted.seasons:
        if len(labels) < wanted.seasons:
            amount = "1 season" if wanted.seasons == 1 else f"{wanted.seasons} seasons"
            return f"{amount} asked; the data hold {len(labels)} ({hold}) {side} {event.date}"
        picked = labels[-wanted.seasons :] if side == "before" else labels[: wanted.seasons]
    else:
        every = [one.label for one in seasons]
        for end in (wanted.first or "", wanted.last or ""):
            if end not in every:
                hint = did_you_mean(end, labels)
                return f"no season '{end}'{hint or f'; the data hold {hold}'} {side} {event.date}"
            if end not in labels:
                fell = "the event falls inside it" if end in inside else f"it is not {side}"
                return f"season '{end}' can't be in it: {fell} ({event.date}); there are: {hold}"
        first, last = (every.index(end or "") for end in (wanted.first, wanted.last))
        picked = [label for label in every[first : last + 1] if label in labels]
    if not picked:
        return (
            f"no season from {wanted.first} to {wanted.last} {side} {event.date}; there are: {hold}"
        )
    days = [match.first for match in matches if match.season in picked]
    begins, ends = min(days), max(days)
    return Window(
        asked=str(wanted),
        first=begins,
        last=ends,
        seasons=picked,
        matches=len(days),
        begins=begins,
        ends=ends,
    )


def _first_day(matches: Sequence[Played], window: Window) -> date:
    return min(one.first for one in matches if window.holds(one.season, one.first))


def _wrong_start(seasons: list[Season], event: EventDates, compared: date) -> str:
    """The trend begins with a season of the data, or a day, and no later than what is compared."""
    first = event.trend_from
    labels = [one.label for one in seasons]
    if first is None:
        return ""
    start = trend_start(seasons, event)
    if start is None:
        return (
            f"no season '{first}'{did_you_mean(first, labels) or '; there are: ' + listed(labels)}"
        )
    if start > compared:
        named = next((one.label for one in seasons if one.first == compared), None)
        what = (
            f"{named}, the first season compared"
            if named
            else f"{compared}, the first match compared"
        )
        return f"'{first}' is after {what}; begin the trend there or earlier"
    return ""
