"""Windows and periods of format 2 and before: labels of seasons, on each side of the event."""

from __future__ import annotations

from typing import Any

Plain = dict[str, Any]
SIDES = ("before", "after")


def timing_of_seasons(seasons: list[Plain], windows: Plain | None) -> Plain:
    """What an event made of time when all was told by seasons, from their days and matches."""
    sides = _windows(seasons, windows) if windows else None
    return {
        "windows": sides,
        "unit": "season",
        "periods": {"season": [_period(one, windows) for one in seasons]},
    }


def _windows(seasons: list[Plain], windows: Plain) -> Plain:
    named = {one["label"]: one for one in seasons}
    before, after = (_window([named[label] for label in windows[side]]) for side in SIDES)
    inside = [windows["transition"]] if windows["transition"] else []
    taken = {*windows["before"], *windows["after"], *inside}
    neither = dict.fromkeys(("earlier", "between", "inside", "later"), 0)
    neither["inside"] = sum(named[label]["matches"] for label in inside)
    for one in seasons:
        if one["label"] not in taken:
            neither[_where(one, before, after)] += one["matches"]
    return {"before": before, "after": after, "inside": inside, "neither": neither}


def _window(seasons: list[Plain]) -> Plain:
    count = len(seasons)
    first, last = min(one["first"] for one in seasons), max(one["last"] for one in seasons)
    return {
        "asked": f"{count} season" if count == 1 else f"{count} seasons",
        "seasons": [one["label"] for one in seasons],
        "matches": sum(one["matches"] for one in seasons),
        **{"first": first, "last": last, "begins": first, "ends": last},
    }


def _where(one: Plain, before: Plain, after: Plain) -> str:
    if one["first"] < before["first"]:
        return "earlier"
    return "later" if one["first"] > after["last"] else "between"


def _period(one: Plain, windows: Plain | None) -> Plain:
    sides = {
        side: one["matches"] if windows and one["label"] in windows[side] else 0 for side in SIDES
    }
    return {**{name: one[name] for name in ("label", "first", "last", "matches")}, **sides}
