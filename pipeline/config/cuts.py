"""The cuts: what balls can be divided and filtered by, in the trade's words."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Cut:
    """One way to divide balls.

    `sql` reads deliveries as d and matches as m; `values` are its closed set of values where it
    has one; `label` is put round a value; `shared` says whether one match can hold several values.
    """

    sql: str
    name: str
    values: tuple[str, ...] = ()
    labels: dict[str, str] = field(default_factory=dict)
    shared: bool = True


CUTS = {
    "phase": Cut("", "phase of the innings"),  # made from the format's phases
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
    ),
    "batting_team": Cut("d.batting_team", "batting side"),
    "bowling_team": Cut("d.bowling_team", "bowling side"),
    "season": Cut("m.season", "season", shared=False),
    "ground": Cut("m.ground", "ground", shared=False),
    "region": Cut("m.region", "region", shared=False),
    "country": Cut("m.country", "country", shared=False),
}
