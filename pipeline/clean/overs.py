"""Overs in the trade's notation: 40.2 is 40 overs and 2 balls, never a decimal."""

from __future__ import annotations

import re


def balls_of(overs: str | None, balls_per_over: int) -> int | None:
    """Balls of '40.2' (242 with six to the over); None for nothing, or for what is no such text.

    '7.6' is not valid with six balls to the over: the sixth ball completes it (common practice).
    """
    found = re.fullmatch(r"(\d{1,3})(?:\.(\d{1,2}))?", (overs or "").strip())
    if not found:
        return None
    whole, part = int(found[1]), int(found[2] or 0)
    return whole * balls_per_over + part if part < balls_per_over else None
