"""A window of an event a stretch shorter or longer, at the end that is far from the event."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec.structs import replace

from pipeline.calendar import MONTHS, months_on
from pipeline.contracts.codes import Way
from pipeline.contracts.selection import Season
from pipeline.contracts.timing import Timing, Window

HELD = 4  # a stretch is held by the data that hold all but one part in so many of it
DAY = timedelta(days=1)


def moved_windows(name: str, timing: Timing, seasons: list[Season]) -> Iterator[tuple[Way, Window]]:
    """One window a stretch shorter and longer, as far as the data hold that."""
    windows = timing.windows
    if windows is None:
        return
    window = windows.before if name == "before" else windows.after
    if window.seasons is None:
        yield from _by_days(name, window, timing)
        return
    parts = {one.label for one in timing.periods.get("season", []) if one.part}
    yield from _by_seasons(name, window, seasons, {*parts, *windows.inside})


def _by_seasons(
    name: str, window: Window, seasons: list[Season], never: set[str]
) -> Iterator[tuple[Way, Window]]:
    """Seasons in order of their first day; one that is a part of a season is not added."""
    labels = [one.label for one in seasons]
    own = sorted(window.seasons or [], key=labels.index)
    shorter = own[1:] if name == "before" else own[:-1]
    yield "shorter", replace(window, seasons=shorter, matches=0)
    beyond = labels.index(own[0]) - 1 if name == "before" else labels.index(own[-1]) + 1
    if 0 <= beyond < len(labels) and labels[beyond] not in never:
        yield "longer", replace(window, seasons=[*own, labels[beyond]], matches=0)


def _by_days(name: str, window: Window, timing: Timing) -> Iterator[tuple[Way, Window]]:
    """A year; one that the data don't hold is not added."""
    first, last = window.first, window.last
    every = timing.periods[timing.unit]
    begun, ended = min(one.first for one in every), max(one.last for one in every)
    if name == "before":
        yield "shorter", _of_days(window, months_on(first, MONTHS), last)
        longer = months_on(first, -MONTHS)
        if begun <= longer + (first - longer) / HELD:
            yield "longer", _of_days(window, longer, last)
        return
    over = last + DAY
    yield "shorter", _of_days(window, first, months_on(over, -MONTHS) - DAY)
    longer = months_on(over, MONTHS) - DAY
    if ended >= longer - (longer - last) / HELD:
        yield "longer", _of_days(window, first, longer)


def _of_days(window: Window, first: date, last: date) -> Window:
    return replace(window, first=first, last=last, begins=first, ends=last, matches=0)
