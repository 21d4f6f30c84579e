"""The windows as conditions on a match `m`, in the words that are printed under the numbers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from pipeline.contracts.timing import OUTSIDE, Window, Windows
from pipeline.sql import quoted_list


def window_sql(windows: Windows) -> str:
    """The side of a match; what is of neither window is 'outside', for the drift."""
    before, after = in_window(windows.before), in_window(windows.after)
    return f"CASE WHEN {before} THEN 'before' WHEN {after} THEN 'after' ELSE '{OUTSIDE}' END"


def in_window(window: Window) -> str:
    """The condition of a window's matches: their seasons, or their first days."""
    if window.seasons is not None:
        return f"m.season IN ({quoted_list(window.seasons)})"
    return within(window.first, window.last)


def in_either(windows: Windows) -> str:
    """The condition of the matches of both windows."""
    before, after = windows.before.seasons, windows.after.seasons
    if before is not None and after is not None:
        return f"m.season IN ({quoted_list([*before, *after])})"
    return f"({in_window(windows.before)} OR {in_window(windows.after)})"


def within(first: date, last: date) -> str:
    """The condition of the matches that begin from one day to another."""
    return f"m.date BETWEEN DATE '{first}' AND DATE '{last}'"


def in_any(spans: Sequence[tuple[date, date]]) -> str:
    """The condition of the matches that begin in one of several stretches of days."""
    return " OR ".join(within(first, last) for first, last in spans) or "false"
