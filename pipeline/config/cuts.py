"""The cuts: what balls can be divided and filtered by, in the trade's words."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Cut:
    """One way to divide balls.

    `sql` reads deliveries as d and matches as m; `values` are its closed set of values where it
    has one; `labels` name its values; `phrase` puts a value into a sentence.
    """

    sql: str
    name: str
    values: tuple[str, ...] = ()
    labels: dict[str, str] = field(default_factory=dict)
    phrase: str = "for {}"


CUTS = {
    "phase": Cut("", "phase of the innings", phrase="in {}"),  # SQL from the format
    "bowler_kind": Cut(
        "d.bowler_kind",
        "kind of bowler",
        ("pace", "spin", "unknown"),
        {"pace": "pace", "spin": "spin", "unknown": "kind unknown"},
    ),
    "bowler_arm": Cut(
        "d.bowler_arm",
        "bowling arm",
        ("left", "right", "unknown"),
        {"left": "left-arm bowling", "right": "right-arm bowling", "unknown": "arm unknown"},
    ),
    "bowler_style": Cut("d.bowler_style", "bowling style"),
    "batter_hand": Cut(
        "d.batter_hand",
        "batting hand",
        ("left", "right", "unknown"),
        {"left": "left-handers", "right": "right-handers", "unknown": "hand unknown"},
    ),
    "innings": Cut(
        "d.innings::VARCHAR",
        "innings of the match",
        ("1", "2", "3", "4"),
        {"1": "first innings", "2": "second innings", "3": "third innings", "4": "fourth innings"},
        "in the {}",
    ),
    "batting_team": Cut("d.batting_team", "batting side", phrase="for {} batting"),
    "bowling_team": Cut("d.bowling_team", "bowling side", phrase="for {} bowling"),
    "season": Cut("m.season", "season", phrase="in {}"),
    "ground": Cut("m.ground", "ground", phrase="at {}"),
    "region": Cut("m.region", "region", phrase="at {} grounds"),
    "country": Cut("m.country", "country", phrase="in {}"),
}

# What may be unknown of a ball, and how it is said.
COVERED = {name: CUTS[name].sql for name in ("bowler_kind", "bowler_arm", "batter_hand", "country")}
COVERED_NAMES = {
    "bowler_kind": "bowling kind",
    "bowler_arm": "bowling arm",
    "batter_hand": "batting hand",
    "country": "country of the ground",
}
# The cuts that lean on each thing known.
_LEANING = {
    "bowler_kind": {"bowler_kind", "bowler_style"},
    "bowler_arm": {"bowler_arm"},
    "batter_hand": {"batter_hand"},
    "country": {"country", "region"},
}


def leant_on(beats: list[dict[str, Any]]) -> list[str]:
    """What must be known of a ball for these beats' cuts and filters to place it."""
    cuts: set[str] = set()
    for beat in beats:
        where = {name for name, value in beat["where"].items() if value}
        cuts |= {*beat.get("by", []), *beat.get("between", {}), *beat.get("of", {}), *where}
    return [name for name, leaning in _LEANING.items() if leaning & cuts]
