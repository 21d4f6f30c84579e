"""What a rebuild moved: headline numbers from what to what, and verdicts and wordings with them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

Fact = dict[str, Any]
TOLD = {"display": "", "spoken": "said: ", "verdict": "verdict: "}


def facts_before(path: Path) -> list[Fact]:
    """The facts of the last build; none when there was none, or when it can't be read."""
    try:
        facts = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError):
        return []
    return [fact for fact in facts if isinstance(fact, dict) and "display" in fact]


def moved(topic: str, before: list[Fact], after: list[Fact]) -> list[str]:
    """Lines to print; none when nothing was there before, or nothing changed."""
    earlier = {fact["id"]: fact for fact in before}
    pairs = [(earlier[fact["id"]], fact) for fact in after if fact["id"] in earlier]
    differ = [(old, new) for old, new in pairs if _changed(old, new)]
    if not differ:
        return []
    headlines = [(old, new) for old, new in differ if new["headline"]]
    others = len(differ) - len(headlines)
    lines = [
        f"{topic}: moved since the last build: {len(headlines)} headline figures, {others} others"
    ]
    for old, new in headlines:
        lines += [f"  {new['id']}: {_change(old, new, 'display')}"]
        lines += [
            f"    {TOLD[key]}{_change(old, new, key)}"
            for key in ("spoken", "verdict")
            if key in _changed(old, new)
        ]
    return lines


def _changed(old: Fact, new: Fact) -> list[str]:
    """What differs of what both builds say."""
    return [key for key in TOLD if key in old and old[key] != new[key]]


def _change(old: Fact, new: Fact, key: str) -> str:
    was, now = old[key] or "none", new[key] or "none"
    return f"{was} -> {now}" if was != now else str(now)
