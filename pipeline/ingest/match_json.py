"""The `match-json` layout: one JSON file a match, decoded into types and checked as it is read.

The types name every key the layout knows. A key that is none of them is counted and passed over
(files of the wild carry stray and misspelt ones); a wrong type is an error.
"""

from __future__ import annotations

import codecs
from collections import Counter
from datetime import date
from typing import Annotated, Any, Literal, get_args, get_type_hints

import msgspec

Count = Annotated[int, msgspec.Meta(ge=0, le=999)]
Scored = Annotated[int, msgspec.Meta(ge=0, le=99)]  # off one delivery
Total = Annotated[int, msgspec.Meta(ge=0, le=9999)]
LARGEST_WITH_STRAYS = 8 * 1024 * 1024  # bytes; decoded without types a file takes twenty times that


class Part(msgspec.Struct, gc=False, forbid_unknown_fields=True):
    """A section of the file."""


class Runs(Part):
    batter: Scored
    extras: Scored
    total: Scored
    non_boundary: bool = False


class Extras(Part):
    wides: Scored = 0
    noballs: Scored = 0
    byes: Scored = 0
    legbyes: Scored = 0
    penalty: Scored = 0


class Wicket(Part):
    kind: str
    player_out: str
    fielders: Any = None


class Delivery(Part):
    batter: str
    bowler: str
    non_striker: str
    runs: Runs
    extras: Extras | None = None
    wickets: list[Wicket] | None = None
    review: Any = None
    replacements: Any = None
    actual_delivery: Any = None


class Over(Part):
    over: Count
    deliveries: list[Delivery]


class Target(Part):
    runs: Total | None = None
    overs: Count | Annotated[float, msgspec.Meta(ge=0, le=999)] | str | None = None


class Penalties(Part):
    pre: Count = 0
    post: Count = 0


class Miscount(Part):
    balls: Count | str | None = None
    umpire: Any = None


class Innings(Part):
    team: str
    overs: list[Over] = []
    target: Target | None = None
    miscounted_overs: dict[str, Miscount] = {}
    penalty_runs: Penalties | None = None
    declared: bool = False
    forfeited: bool = False
    super_over: bool = False
    powerplays: Any = None
    absent_hurt: Any = None


class Event(Part):
    name: str | None = None
    match_number: Any = None
    group: Any = None
    stage: Any = None
    sub_name: Any = None


class Outcome(Part):
    winner: str | None = None
    result: str | None = None
    by: dict[str, Total] = {}
    method: str | None = None
    eliminator: str | None = None
    bowl_out: str | None = None


class Registry(Part):
    people: dict[str, str] = {}


class Toss(Part):
    winner: str | None = None
    decision: str | None = None
    uncontested: Any = None


class Info(Part):
    dates: list[date]
    gender: str
    match_type: str
    season: str | Total
    teams: list[str]
    outcome: Outcome = msgspec.field(default_factory=Outcome)
    balls_per_over: Annotated[int, msgspec.Meta(ge=1, le=99)] = 6
    city: str | None = None
    venue: str | None = None
    event: Event | None = None
    overs: Count | None = None
    team_type: str | None = None
    toss: Toss | None = None
    players: dict[str, list[str]] = {}
    registry: Registry = msgspec.field(default_factory=Registry)
    match_type_number: Any = None
    missing: Any = None
    officials: Any = None
    player_of_match: Any = None
    supersubs: Any = None
    bowl_out: Any = None


class Meta(Part):
    data_version: Literal["1.0.0", "1.1.0", "1.2.0"]
    revision: Annotated[int, msgspec.Meta(ge=0, le=999_999)] = 1
    created: Any = None


class Match(Part):
    meta: Meta
    info: Info
    innings: list[Innings] = []


decoder = msgspec.json.Decoder(Match)
plain_decoder = msgspec.json.Decoder()


def decode(data: bytes, strays: Counter[str] | None = None) -> Match:
    """One match file; stray keys are counted by their place in it, and refused in a huge file.

    A mark of byte order before it is passed over. Raises msgspec.DecodeError or ValidationError
    naming the place.
    """
    data = data.removeprefix(codecs.BOM_UTF8)
    try:
        return decoder.decode(data)
    except msgspec.ValidationError:
        if len(data) > LARGEST_WITH_STRAYS:
            raise
        tree = plain_decoder.decode(data)
        found: Counter[str] = Counter()
        _prune(tree, Match, "$", found)
        if not found:
            raise
    match = msgspec.convert(tree, Match)
    if strays is not None:
        strays.update(found)
    return match


def _prune(node: Any, kind: type[Part], place: str, found: Counter[str]) -> None:
    """Take stray keys out of a decoded section and count each by its place."""
    if not isinstance(node, dict):
        return
    known = get_type_hints(kind)
    for key in list(node):
        if key not in known:
            del node[key]
            found[f"{place}.{key}"] += 1
            continue
        inner = _parts(known[key])
        if inner is None:
            continue
        inside = f"{place}.{key}"
        if isinstance(node[key], list):
            for item in node[key]:
                _prune(item, inner, f"{inside}[]", found)
        elif inner is Miscount and isinstance(node[key], dict):
            for item in node[key].values():
                _prune(item, inner, f"{inside}.*", found)
        else:
            _prune(node[key], inner, inside, found)


def _parts(annotation: Any) -> type[Part] | None:
    """The section type inside an annotation: Extras of `Extras | None`, Over of `list[Over]`."""
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return annotation
    for inner in get_args(annotation):
        if (found := _parts(inner)) is not None:
            return found
    return None
