"""The cuts: what balls can be divided and filtered by, in the trade's words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind


@dataclass(frozen=True)
class Cut:
    """One way to divide balls.

    `sql` reads deliveries as d and matches as m; `values` are its closed set of values where it
    has one; `labels` name its values; `phrase` puts a value into a sentence, or the value owns the
    number when `owner` is set ("spin’s economy"). `divides` is False for what only filters, since
    a ball may have several of its values or the beat says them.
    """

    sql: str
    name: str
    values: tuple[str, ...] = ()
    labels: dict[str, str] = field(default_factory=dict)
    phrase: str = "for {}"
    divides: bool = True
    owner: bool = False


# Top order, middle order and lower order: common practice.
_ORDER = (
    "CASE WHEN d.batting_position <= 3 THEN 'top' WHEN d.batting_position <= 7 THEN 'middle' "
    "WHEN d.batting_position <= 11 THEN 'lower' ELSE 'unknown' END"
)
_HOME = (
    "CASE WHEN m.home = 'unknown' THEN 'unknown' "
    "WHEN list_contains(string_split_regex(m.home, '\\s*;\\s*'), d.batting_team) THEN 'home' "
    "WHEN list_contains(string_split_regex(m.home, '\\s*;\\s*'), d.bowling_team) THEN 'away' "
    "ELSE 'neutral' END"
)
_RESULT = (
    "CASE WHEN m.winner = d.batting_team THEN 'won' WHEN m.winner = d.bowling_team THEN 'lost' "
    "WHEN m.result = 'tie' THEN 'tied' ELSE 'undecided' END"
)

CUTS = {
    "phase": Cut("", "phase of the innings", phrase="in {}"),  # SQL from the format
    "band": Cut("", "overs", phrase="in {}", divides=False),  # SQL from a phases beat
    "bowler_kind": Cut(
        "d.bowler_kind",
        "kind of bowler",
        ("pace", "spin", "unknown"),
        {"pace": "pace", "spin": "spin", "unknown": "kind unknown"},
        owner=True,
    ),
    "bowler_arm": Cut(
        "d.bowler_arm",
        "bowling arm",
        ("left", "right", "unknown"),
        {"left": "left-arm bowling", "right": "right-arm bowling", "unknown": "arm unknown"},
        owner=True,
    ),
    "bowler_style": Cut("d.bowler_style", "bowling style"),
    "batter_hand": Cut(
        "d.batter_hand",
        "batting hand",
        ("left", "right", "unknown"),
        {"left": "left-handers", "right": "right-handers", "unknown": "hand unknown"},
        owner=True,
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
    "batting_position": Cut(
        "coalesce(d.batting_position::VARCHAR, 'unknown')",
        "batting position",
        (*(str(place) for place in range(1, 12)), "unknown"),
        {str(place): f"number {place}" for place in range(1, 12)} | {"unknown": "place unknown"},
        "at {}",
    ),
    "batting_order": Cut(
        _ORDER,
        "part of the batting order",
        ("top", "middle", "lower", "unknown"),
        {
            "top": "numbers 1–3",
            "middle": "numbers 4–7",
            "lower": "numbers 8–11",
            "unknown": "place unknown",
        },
    ),
    "home": Cut(
        _HOME,
        "whose ground it is",
        ("home", "away", "neutral", "unknown"),
        {
            "home": "home side batting",
            "away": "away side batting",
            "neutral": "neutral ground",
            "unknown": "home side unknown",
        },
        "with the {}",
    ),
    "result": Cut(
        _RESULT,
        "result for the batting side",
        ("won", "lost", "tied", "undecided"),
        {
            "won": "sides that won",
            "lost": "sides that lost",
            "tied": "sides that tied",
            "undecided": "matches without a result",
        },
    ),
    "competition": Cut("m.competition", "competition", phrase="in the {}"),
    "team": Cut("", "side of the match", phrase="in matches of {}", divides=False),
    "bowler": Cut("d.bowler_id", "bowler", divides=False, owner=True),
    "batter": Cut("d.batter_id", "batter", divides=False, owner=True),
    "bowler_tag": Cut("d.bowler_id", "bowlers’ tag", phrase="for bowlers of ‘{}’", divides=False),
    "batter_tag": Cut("d.batter_id", "batters’ tag", phrase="for batters of ‘{}’", divides=False),
}
DIVIDING = {name: cut for name, cut in CUTS.items() if cut.divides}
# What belongs to the batter, and so to the player who was out when a wicket falls.
OF_BATTER = {"batter", "batter_tag", "batter_hand", "batting_position", "batting_order"}

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


def leant_on(beats: Sequence[AnyKind]) -> list[str]:
    """What must be known of a ball for these beats' cuts and filters to place it."""
    cuts: set[str] = set()
    for beat in beats:
        cuts |= set(beat.touched())
        cuts |= set(beat.held_against.where.chosen()) if beat.held_against else set()
        cuts |= {"bowler_kind"} if beat.person == "bowler" else set()
    return [name for name, leaning in _LEANING.items() if leaning & cuts]
