"""What a rebuild moved: headline numbers from what to what, and verdicts and wordings with them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pipeline.editions.difference import facts_moved

Fact = dict[str, Any]
TOLD = {"display": "", "spoken": "said: ", "verdict": "verdict: "}


def facts_before(path: Path) -> list[Fact]:
    """The facts of the last build; none when there was none, or when it can't be read."""
    try:
        facts = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError):
        return []
    needed = {"id", "headline", "display"}
    return [fact for fact in facts if isinstance(fact, dict) and needed <= fact.keys()]


def moved(topic: str, before: list[Fact], after: list[Fact]) -> list[str]:
    """Lines to print; none when nothing was there before, or nothing changed."""
    both = [fact for fact in facts_moved(before, after) if fact["old"] and fact["new"]]
    differ = [fact for fact in both if set(fact["what"]) & set(TOLD)]
    if not differ:
        return []
    headlines = [fact for fact in differ if fact["headline"]]
    others = len(differ) - len(headlines)
    lines = [
        f"{topic}: moved since the last build: {len(headlines)} headline figures, {others} others"
    ]
    for fact in headlines:
        lines += [f"  {fact['id']}: {_change(fact, 'display')}"]
        lines += [
            f"    {TOLD[key]}{_change(fact, key)}"
            for key in ("spoken", "verdict")
            if key in fact["what"]
        ]
    return lines


def _change(fact: Fact, key: str) -> str:
    was, now = (fact[side][key] or "none" for side in ("old", "new"))
    return f"{was} -> {now}" if was != now else str(now)
