"""The cuts: what balls can be divided and filtered by, in the trade's words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind


@dataclass(frozen=True)
class Cut:
    """One way to divide balls.

    `sql` reads deliveries as d and matches as m; `values` are its closed set of values where it
    has one; `labels` name its values. `phrase` puts values into a sentence, `against` where the
    number is of the other `side`; `phrases` are those of single values that go otherwise. Or the
    value owns the number when `owner` is set ("spin’s economy"). `row` is its name in a label where
    the value alone would not say whose it is; `adjectives` go before another owner ("left-arm
    spin’s economy"); `each` ends a heading of what is divided by it ("phase by phase"). `divides`
    is False for what only filters, since a ball may have several of its values or the beat says
    them.
    """

    sql: str
    name: str
    values: tuple[str, ...] = ()
    labels: dict[str, str] = field(default_factory=dict)
    phrase: str = "for {}"
    divides: bool = True
    owner: bool = False
    side: Literal["bat", "bowl", ""] = ""
    against: str = "against {}"
    phrases: dict[str, str] = field(default_factory=dict)
    row: str = "{}"
    adjectives: dict[str, str] = field(default_factory=dict)
    each: str = ""


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
_NO_PLACE = "batters of unknown place"

CUTS = {
    "phase": Cut(
        "", "phase of the innings", phrase="in {}", each="phase by phase"
    ),  # SQL from the format
    "band": Cut(
        "", "overs", phrase="in {}", divides=False, each="over by over"
    ),  # SQL from a phases beat
    "bowler_kind": Cut(
        "d.bowler_kind",
        "kind of bowler",
        ("pace", "spin", "unknown"),
        {"pace": "pace", "spin": "spin", "unknown": "bowlers of unknown kind"},
        "from {}",
        owner=True,
        side="bowl",
        each="pace and spin",
    ),
    "bowler_arm": Cut(
        "d.bowler_arm",
        "bowling arm",
        ("left", "right", "unknown"),
        {
            "left": "left-arm bowling",
            "right": "right-arm bowling",
            "unknown": "bowlers of unknown arm",
        },
        "from {}",
        owner=True,
        side="bowl",
        adjectives={"left": "left-arm", "right": "right-arm"},
        each="left arm and right arm",
    ),
    "bowler_style": Cut(
        "d.bowler_style",
        "bowling style",
        labels={"unknown": "bowlers of unknown style"},
        phrase="from {}",
        side="bowl",
        each="style by style",
    ),
    "batter_hand": Cut(
        "d.batter_hand",
        "batting hand",
        ("left", "right", "unknown"),
        {"left": "left-handers", "right": "right-handers", "unknown": "batters of unknown hand"},
        owner=True,
        side="bat",
        each="left-handers and right-handers",
    ),
    "innings": Cut(
        "d.innings::VARCHAR",
        "innings of the match",
        ("1", "2", "3", "4"),
        {"1": "first innings", "2": "second innings", "3": "third innings", "4": "fourth innings"},
        "in the {}",
        each="innings by innings",
    ),
    "batting_team": Cut(
        "d.batting_team",
        "batting side",
        phrase="with {} batting",
        owner=True,
        side="bat",
        row="{} batting",
        each="each side batting",
    ),
    "bowling_team": Cut(
        "d.bowling_team",
        "bowling side",
        phrase="with {} bowling",
        owner=True,
        side="bowl",
        row="{} bowling",
        each="each side bowling",
    ),
    "season": Cut("m.season", "season", phrase="in {}", each="season by season"),
    "ground": Cut("m.ground", "ground", phrase="at {}", each="ground by ground"),
    "region": Cut(
        "m.region",
        "region",
        labels={"unknown": "region unknown"},
        phrase="at {} grounds",
        phrases={"unknown": "at grounds of unknown region"},
        each="region by region",
    ),
    "country": Cut(
        "m.country",
        "country",
        labels={"unknown": "country unknown"},
        phrase="in {}",
        phrases={"unknown": "in an unknown country"},
        each="country by country",
    ),
    "batting_position": Cut(
        "coalesce(d.batting_position::VARCHAR, 'unknown')",
        "batting position",
        (*(str(place) for place in range(1, 12)), "unknown"),
        {str(place): f"number {place}" for place in range(1, 12)} | {"unknown": _NO_PLACE},
        "at {}",
        side="bat",
        phrases={"unknown": f"for {_NO_PLACE}"},
        each="place by place in the order",
    ),
    "batting_order": Cut(
        _ORDER,
        "part of the batting order",
        ("top", "middle", "lower", "unknown"),
        {
            "top": "numbers 1–3",
            "middle": "numbers 4–7",
            "lower": "numbers 8–11",
            "unknown": _NO_PLACE,
        },
        side="bat",
        each="top, middle and lower order",
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
        phrases={
            "neutral": "at neutral grounds",
            "unknown": "where the home side isn’t known",
        },
        each="home and away",
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
        phrases={"undecided": "in matches without a result"},
        each="by who won",
    ),
    "competition": Cut(
        "m.competition", "competition", phrase="in the {}", each="competition by competition"
    ),
    "team": Cut(
        "", "side of the match", phrase="in matches of {}", divides=False, row="matches of {}"
    ),
    "bowler": Cut(
        "d.bowler_id", "bowler", divides=False, owner=True, side="bowl", each="bowler by bowler"
    ),
    "batter": Cut(
        "d.batter_id", "batter", divides=False, owner=True, side="bat", each="batter by batter"
    ),
    "bowler_tag": Cut("d.bowler_id", "bowlers’ tag", divides=False, owner=True, side="bowl"),
    "batter_tag": Cut("d.batter_id", "batters’ tag", divides=False, owner=True, side="bat"),
}
DIVIDING = {name: cut for name, cut in CUTS.items() if cut.divides}
# What belongs to the batter, and so to the player who was out when a wicket falls.
OF_BATTER = {"batter", "batter_tag", "batter_hand", "batting_position", "batting_order"}

# Cuts that every ball has a value of: to leave the unknown out leaves none out.
ALWAYS_KNOWN = {"innings", "season", "batting_team", "bowling_team", "competition", "result"}
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
