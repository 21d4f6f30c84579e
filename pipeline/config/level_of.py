"""Whose luck a difference of two groups is held against: what the groups of a cut are made of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from pipeline.config.sums import parse_sum

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind

Level = Literal["ground", "batter", "bowler", "side"]
# The groups of these cuts are made of grounds, batters, bowlers, sides. Two innings, phases,
# seasons or results are in the same matches, or are of one match each; two grounds that are named,
# or two sides, are asked about for themselves: there the match is all that varies.
LEVELS: dict[str, Level] = {
    **dict.fromkeys(("region", "country", "home"), "ground"),
    **dict.fromkeys(("batter_hand", "batting_position", "batting_order"), "batter"),
    **dict.fromkeys(("bowler_kind", "bowler_arm", "bowler_style"), "bowler"),
    "competition": "side",
}
# What a ball's cluster is, where the match does not say it.
OF_BALLS: dict[Level, str] = {
    "batter": "d.batter_id",
    "bowler": "d.bowler_id",
    "side": "d.batting_team",
}
# Sums that several clusters of one match have in common, so that theirs do not add up to its own.
_COMMON = {"matches", "decided", "won"}
COMMON: dict[Level, set[str]] = {
    "ground": set(),
    "side": _COMMON,
    "batter": {*_COMMON, "innings"},
    "bowler": {*_COMMON, "innings"},
}


def level_of(beat: AnyKind) -> Level | None:
    """What the two groups of a beat are made of; none where the match is all that varies."""
    return LEVELS.get(beat.groups[0]) if beat.groups else None


def adds_up(level: Level, numerator: str, denominator: str) -> bool:
    """Whether the clusters' sums of a measure add up to those of their matches."""
    names = {name for text in (numerator, denominator) for _, name in parse_sum(text)}
    return not names & COMMON[level]
