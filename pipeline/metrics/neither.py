"""What two windows leave out, counted by why; nothing is left out silently."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date

from pipeline.contracts.timing import OUTSIDE, Neither, Window, Windows
from pipeline.metrics.matches import Played


def counted(
    matches: Sequence[Played], before: Window, after: Window, inside: list[str], event: date
) -> Windows:
    """Both windows with the matches that are in neither, and those that straddle an end.

    A match of a season that is left out for the event (`inside`) counts as that, wherever it lies.
    """
    windows = Windows(
        before=before,
        after=after,
        inside=inside,
        neither=Neither(earlier=0, between=0, inside=0, later=0),
    )
    why: Counter[str] = Counter()
    for match in matches:
        if windows.side(match.season, match.first) == OUTSIDE:
            why[_why(match, windows, inside)] += 1
    windows.neither = Neither(**{name: why[name] for name in Neither.__struct_fields__})
    windows.straddling = sum(_straddles(match, windows, event) for match in matches)
    return windows


def _why(match: Played, windows: Windows, inside: list[str]) -> str:
    if match.season in inside:
        return "inside"
    if match.first < windows.before.first:
        return "earlier"
    return "later" if match.first > windows.after.last else "between"


def _straddles(match: Played, windows: Windows, event: date) -> bool:
    """Whether it began before the event, or in a window, and ended after that."""
    if match.first < event <= match.last:
        return True
    side = windows.side(match.season, match.first)
    window = {"before": windows.before, "after": windows.after}.get(side)
    return window is not None and window.seasons is None and match.last > window.last
