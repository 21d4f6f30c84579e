"""The `match-json` layout: one JSON file a match, decoded into types and checked as it is read.

Unknown keys in match files are ignored (files of the wild carry stray ones); wrong types are not.
"""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

import msgspec

Count = Annotated[int, msgspec.Meta(ge=0, le=999)]
Total = Annotated[int, msgspec.Meta(ge=0, le=9999)]


class Runs(msgspec.Struct, gc=False):
    batter: Count
    extras: Count
    total: Count
    non_boundary: bool = False


class Extras(msgspec.Struct, gc=False):
    wides: Count = 0
    noballs: Count = 0
    byes: Count = 0
    legbyes: Count = 0
    penalty: Count = 0


class Wicket(msgspec.Struct, gc=False):
    kind: str
    player_out: str


class Delivery(msgspec.Struct, gc=False):
    batter: str
    bowler: str
    non_striker: str
    runs: Runs
    extras: Extras | None = None
    wickets: list[Wicket] | None = None


class Over(msgspec.Struct):
    over: Count
    deliveries: list[Delivery]


class Target(msgspec.Struct):
    runs: Total | None = None
    overs: int | float | str | None = None


class Penalties(msgspec.Struct):
    pre: Count = 0
    post: Count = 0


class Miscount(msgspec.Struct):
    balls: int | str | None = None


class Innings(msgspec.Struct):
    team: str
    overs: list[Over] = []
    target: Target | None = None
    miscounted_overs: dict[str, Miscount] = {}
    penalty_runs: Penalties | None = None
    declared: bool = False
    forfeited: bool = False
    super_over: bool = False


class Event(msgspec.Struct):
    name: str | None = None


class Outcome(msgspec.Struct):
    winner: str | None = None
    result: str | None = None
    by: dict[str, int] = {}
    method: str | None = None
    eliminator: str | None = None
    bowl_out: str | None = None


class Registry(msgspec.Struct):
    people: dict[str, str] = {}


class Toss(msgspec.Struct):
    winner: str | None = None
    decision: str | None = None


class Info(msgspec.Struct):
    dates: list[date]
    teams: list[str]
    gender: str
    match_type: str
    season: str | int
    outcome: Outcome = msgspec.field(default_factory=Outcome)
    balls_per_over: Annotated[int, msgspec.Meta(ge=1, le=99)] = 6
    city: str | None = None
    venue: str | None = None
    event: Event | None = None
    overs: Count | None = None
    team_type: str | None = None
    toss: Toss | None = None
    registry: Registry = msgspec.field(default_factory=Registry)


class Meta(msgspec.Struct):
    data_version: Literal["1.0.0", "1.1.0", "1.2.0"]
    revision: Annotated[int, msgspec.Meta(ge=0, le=999_999)] = 1


class Match(msgspec.Struct):
    meta: Meta
    info: Info
    innings: list[Innings] = []


decoder = msgspec.json.Decoder(Match)


def decode(data: bytes) -> Match:
    """One match file; raises msgspec.DecodeError or ValidationError naming the place in it."""
    return decoder.decode(data)
