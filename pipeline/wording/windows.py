"""The two windows in words: what each holds, what is in neither, and why."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from pipeline.calendar import NAMES, days_on
from pipeline.contracts.timing import Neither, Window, Windows
from pipeline.text import listed, span
from pipeline.wording import numbers

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent


def day_said(day: date) -> str:
    """'30 Oct 2012'."""
    return f"{day.day} {month_said(day)}"


def month_said(day: date) -> str:
    """'Oct 2012'."""
    return f"{NAMES[day.month - 1]} {day.year}"


def window_said(window: Window) -> str:
    """'2012–2016', 'Apr 2012–Sep 2016' of whole months, '30 Oct 2012–29 Oct 2016'."""
    if window.seasons is not None:
        return span(window.seasons)
    whole = window.begins.day == 1 and days_on(window.ends, 1).day == 1
    said = month_said if whole else day_said
    return f"{said(window.begins)}–{said(window.ends)}"


def against(windows: Windows) -> str:
    """'2012–2016 against 2017–2021'."""
    return f"{window_said(windows.before)} against {window_said(windows.after)}"


def neither_said(neither: Neither) -> str:
    """'160 in neither window: 120 earlier, 40 later'; '' where every match is in one."""
    parts = [f"{count:,} {why}" for count, why in _reasons(neither) if count]
    if not parts:
        return ""
    return f"{numbers.matches(neither.all)} in neither window: {', '.join(parts)}"


def _reasons(neither: Neither) -> Iterator[tuple[int, str]]:
    yield neither.earlier, "earlier"
    yield neither.between, "between the two"
    yield neither.inside, "of the season the event came in"
    yield neither.later, "later"


def window_lines(event: NamedEvent, windows: Windows) -> list[str]:
    """What stands before and after, what is left out and why, and what straddles an end."""
    line = f"Before {event.name} ({event.date.isoformat()}) are {_held(windows.before)}; after it, "
    line += f"{_held(windows.after, windows.before)}."
    if event.gap_after:
        line += f" The first {event.gap_after} after it are left out, for it to settle in."
    if windows.inside:
        line += f" It came during {listed(windows.inside)}, which is in neither."
    if left := neither_said(windows.neither):
        line += f" {left[:1].upper()}{left[1:]}."
    if windows.straddling:
        whose, each = ("their", "each") if windows.straddling > 1 else ("its", "it")
        line += (
            f" {numbers.matches(windows.straddling)} went on past the event, or past the end of "
            f"{whose} window: {each} counts where it began."
        )
    return [line]


def _held(window: Window, beside: Window | None = None) -> str:
    """'the seasons 2012 and 2013', 'the matches begun from 1 Apr 2012 to 30 Sep 2016'."""
    if window.seasons is not None:
        same = beside is not None and beside.seasons is not None
        return listed(window.seasons) if same else f"the seasons {listed(window.seasons)}"
    same = beside is not None and beside.seasons is None
    head = "those" if same else "the matches"
    cut = ""
    if window.cut:
        cut = f" (the data go from {day_said(window.begins)} to {day_said(window.ends)} of that)"
    return f"{head} begun from {day_said(window.first)} to {day_said(window.last)}{cut}"
