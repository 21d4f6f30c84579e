"""Other events that a step beside the drift could be the work of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.notes import Rival
from pipeline.contracts.timing import Windows

if TYPE_CHECKING:
    from datetime import date

    from pipeline.config.topic import OtherEvent


def rivals(others: list[OtherEvent], day: date, windows: Windows) -> list[Rival]:
    """Those inside the windows or between them, each with its days from the event's `day`."""
    first, last = windows.before.begins, windows.after.ends
    return [
        Rival(name=other.name, days=(other.date - day).days)
        for other in others
        if first <= other.date <= last
    ]
