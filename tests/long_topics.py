"""Topics as long as they come: twenty-five beats of every kind, and nine of the widest tables."""

from __future__ import annotations

import json
from typing import Any

Beat = dict[str, Any]
HEAD = """title: {title}
question: What became of the scoring when the hail came in, and of whom?
data: {{competition: [Pebble Cup, Sand Cup], format: one-day}}
event: {{name: the hail, date: 2020-01-01, before: 4 seasons, after: 3 seasons}}
headlines: {headlines}
background: [{{say: It hailed all winter.}}, {{say: The ground was slow., source: The almanac}}]
sponsor: [{{after: b2, seconds: 30}}]
beats:
"""
LONG = "WWWWWW of the MMMMMM, and all that was ever said about that"  # sixty signs
KIND, PHASE = "bowler_kind", "phase"
ECONOMY, RATE = "economy", "run_rate"
# Each asks of other balls at every turn, so that its headings and rows are others.
KINDS: tuple[Beat, ...] = (
    {"kind": "trend", "measure": RATE},
    {"kind": "before_after", "measure": ECONOMY, "by": [KIND, PHASE]},
    {"kind": "gap", "measure": ECONOMY, "between": {KIND: ["pace", "spin"]}, "by": PHASE},
    {"kind": "players", "measure": ECONOMY, "role": "bowler", "at_least": "10 balls"},
    {"kind": "mix", "measure": RATE, "by": KIND},
    {"kind": "groups", "measure": RATE, "between": {"innings": ["1", "2"]}},
    {"kind": "before_after", "measure": ["boundary_share", "dot_share"], "by": PHASE},
    {"kind": "share", "of": {KIND: "spin"}},
    {"kind": "turning_point", "measure": RATE},
    {"kind": "players", "measure": "batting_strike_rate", "role": "batter", "at_least": "10 balls"},
)
FILTERS: tuple[Beat, ...] = (
    {},
    {"where": {"innings": "1"}},
    {"where": {"innings": "2"}},
)
WIDE: tuple[Beat, ...] = (
    {"kind": "before_after", "measure": [ECONOMY, "boundary_share"], "by": [KIND, PHASE]},
    {"kind": "before_after", "measure": RATE, "by": ["batting_team", PHASE]},
    {"kind": "gap", "measure": ECONOMY, "between": {KIND: ["pace", "spin"]}, "by": PHASE},
    {"kind": "gap", "measure": RATE, "between": {PHASE: ["middle", "death"]}, "by": "batting_team"},
    {"kind": "players", "measure": ECONOMY, "role": "bowler", "at_least": "6 balls"},
    {"kind": "players", "measure": RATE, "role": "batter", "at_least": "6 balls"},
    {"kind": "mix", "measure": RATE, "by": ["batting_team"]},
    {"kind": "mix", "measure": RATE, "by": [KIND, PHASE]},
    {"kind": "before_after", "measure": "bowling_strike_rate", "by": ["ground", KIND]},
)


def many_beats(count: int = 25) -> str:
    """A topic of so many beats, of every kind in turn; some have headings as long as may be."""
    beats = [{**KINDS[at % len(KINDS)], **FILTERS[at // len(KINDS)]} for at in range(count)]
    for at in range(1, count, 3):
        beats[at]["title"] = f"{LONG} {at}"
    return _topic(f"{LONG}?", beats, ["b0", "b5", "b7", "b10", "b15"])


def wide_tables() -> str:
    """A topic of nine beats with all the columns and rows that a table has."""
    return _topic("Nine wide tables", list(WIDE), ["b1", "b6", "b7"])


def _topic(title: str, beats: list[Beat], headlines: list[str]) -> str:
    lines = [f"  - {json.dumps({'id': f'b{at}', **beat})}" for at, beat in enumerate(beats)]
    return HEAD.format(title=title, headlines=json.dumps(headlines)) + "\n".join([*lines, ""])
