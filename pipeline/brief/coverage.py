"""How much of a topic's balls has a known kind, arm, hand and country, and what follows from it."""

from __future__ import annotations

from typing import Any

from pipeline.config.cuts import COVERED, COVERED_NAMES
from pipeline.wording import numbers, sentences
from pipeline.wording.labels import listed

View = dict[str, Any]
ENOUGH = 0.95  # under this share of known balls the brief cautions
# The cuts that lean on each thing known.
LEANING = {
    "bowler_kind": {"bowler_kind", "bowler_style"},
    "bowler_arm": {"bowler_arm"},
    "batter_hand": {"batter_hand"},
    "country": {"country", "region"},
}


def known(findings: View) -> dict[str, float]:
    """Shares of valid balls that are known."""
    data = findings["data"]
    return {name: 1 - data["unknown_balls"][name] / data["balls"] for name in COVERED}


def used(view: View) -> list[str]:
    """What the topic's beats divide or choose by."""
    cuts: set[str] = set()
    for beat in view["beats"]:
        cuts |= {*beat.get("by", []), *beat.get("between", {}), *beat["where"]}
    return [name for name, leaning in LEANING.items() if leaning & cuts]


def known_line(findings: View, names: list[str]) -> str:
    """'bowling kind known for 96.9% of balls'; all of it when the topic uses none."""
    shares = known(findings)
    parts = [
        f"{COVERED_NAMES[name]} {numbers.percent(shares[name], 1, signed=False)}"
        for name in names or shares
    ]
    return f"known, of the balls: {listed(parts)}"


def thin(view: View, findings: View) -> list[str]:
    """A caution for each thing used that is known for too few balls."""
    shares = known(findings)
    return [
        sentences.coverage(COVERED_NAMES[name], 1 - shares[name])
        for name in used(view)
        if shares[name] < ENOUGH
    ]
