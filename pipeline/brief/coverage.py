"""How much of a topic's balls has the known kind, arm, hand or country that its beats lean on."""

from __future__ import annotations

from typing import Any

from pipeline.config.cuts import COVERED_NAMES
from pipeline.text import listed
from pipeline.wording import notes, numbers

View = dict[str, Any]
ENOUGH = 0.95  # under this share of known balls the brief cautions


def known(findings: View) -> dict[str, float]:
    """Shares of valid balls that are known, of the things that the topic leans on."""
    data = findings["data"]
    return {name: 1 - count / data["balls"] for name, count in data["unknown_balls"].items()}


def known_line(findings: View) -> str:
    """'known, of the balls: bowling kind 96.9%'; blank when the topic leans on nothing."""
    parts = [
        f"{COVERED_NAMES[name]} {numbers.percent(share, 1, signed=False)}"
        for name, share in known(findings).items()
    ]
    return f"known, of the balls: {listed(parts)}" if parts else ""


def thin(findings: View) -> list[str]:
    """A caution for each thing leant on that is known for too few balls."""
    return [
        notes.coverage(COVERED_NAMES[name], 1 - share)
        for name, share in known(findings).items()
        if share < ENOUGH
    ]
