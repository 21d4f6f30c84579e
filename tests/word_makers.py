"""Findings as words are made of them: how far it moved, how surely, and what was made of that."""

from __future__ import annotations

from typing import Any, TypeVar, get_args

import msgspec

from pipeline.config.event_views import NamedEvent
from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.config.measure import Measure
from pipeline.config.project import Format
from pipeline.contracts.codes import Unit
from pipeline.contracts.finding import Answer, Change, Finding, Gap, Groups, Player, Turn
from pipeline.contracts.findings import PlayersList
from pipeline.contracts.notes import AtLeast
from pipeline.contracts.over_time import Drift, EventPlace, TurningDate
from pipeline.contracts.parts import GroupChange, Margin, Shrunk, Span
from pipeline.wording import of_kinds
from tests.finding_makers import (
    answer,
    clusters,
    drift,
    effect,
    group_change,
    side,
    slope,
    span,
    step_test,
)
from tests.seasons import event

Kind = TypeVar("Kind", bound=Answer)
FORM = Format.model_validate(
    {
        "label": "50-over matches",
        "match_types": ["domestic one-day"],
        "overs": 50,
        "phases": {
            "middle": {"label": "overs 11–40", "overs": "11-40", "said": "in the middle overs"},
            "death": {"label": "overs 41–50", "overs": "41-50", "said": "at the death"},
        },
    }
)
EVENT = NamedEvent(**dict(event("2017-03-01")), name="the long rope")
ECONOMY = Measure.model_validate(
    {
        "label": "economy",
        "numerator": "runs_bowler",
        "denominator": "legal",
        "per": 6,
        "kind": "rate",
        "unit": "runs an over",
        "spoken": "an over",
        "decimals": 2,
        "rise_favours": "batting",
        "margin": "5 %",
        "defined": "runs off the bowler for every six valid balls",
    }
)
CELL = {"bowler_kind": "spin", "phase": "middle"}
POINTS = Margin(size=0.6, unit="points")


def beat(kind: str, **more: Any) -> Any:
    """A beat as a topic writes it."""
    model = KINDS[kind]
    measure = {"measure": "economy"} if "measure" in model.model_fields else {}
    return model.model_validate({"id": "b", "kind": kind, **measure, **more})


BEAT = beat("before_after")
GROUPS = beat("groups", between={"region": ["inland", "coast"]})
GAP = beat("gap", between={"bowler_kind": ["pace", "spin"]})
MIX = beat("mix", where={"phase": ["middle"]}, by=["bowler_kind"])
TURN = beat("turning_point")
TREND = beat("trend")
PHASES = beat("phases")
PLAYERS = beat("players", role="bowler", at_least="300 balls")
SHARE_BEAT = beat("share", of={"bowler_arm": ["left"]})
(SHARE,) = SHARE_BEAT.makes.values()
STREAKS = beat("streaks", of="dots")
IN_A_ROW, AGAINST_RATE = STREAKS.makes.values()


def said(finding: Finding, of: AnyBeat = BEAT, measure: Measure = ECONOMY) -> str:
    """All sentences of a finding as one line."""
    return " ".join(of_kinds.said(finding, of, measure, FORM, EVENT))


def moved(
    change: float, half: float, verdict: Any = "changed", kind: type[Kind] = Change, **more: Any
) -> Kind:
    """From five to so much more of it, its interval `half` to either side."""
    a, b = 5.0, 5.0 * (1 + change)
    sides = {
        name: side(value, low=value - 0.1, high=value + 0.1, matches=40)
        for name, value in (("a", a), ("b", b))
    }
    told = {"effect": _effect(span(5.0 * change, 5.0 * half), span(change, half))}
    if more.get("refused"):
        told = {}
    plain = {"values": CELL if kind is Change else {}, "family_size": 40}
    identity = more.pop("id", "b.economy.spin-middle")
    return answer(kind, identity, verdict=verdict, **{**sides, **told, **plain, **more})


def usual(finding: Kind, of: Any = "season") -> Kind:
    """The same where its periods, or what its groups are made of, differ that much anyway."""
    units = get_args(Unit)
    because = "usual_between_periods" if of in units else "usual_between_clusters"
    told = msgspec.structs.replace(finding.told, cluster=clusters(of))
    return msgspec.structs.replace(finding, effect=told, because=because)


def _effect(difference: Span, relative: Span) -> Any:
    plain = effect(p=0.01, detectable_change=0.05)
    return msgspec.structs.replace(plain, difference=difference, relative=relative)


def share_moved(points: float, half: float, verdict: Any = "changed", **more: Any) -> Change:
    """A share of a quarter, so many points more of it."""
    found = moved(points / 25, half / 25, verdict, values={}, kind=Change, **more)
    told = _effect(span(points, half), span(points / 25, half / 25))
    sides = [side(v, low=v - 1, high=v + 1, matches=40) for v in (25.0, 25.0 + points)]
    return msgspec.structs.replace(
        found, effect=told, a=sides[0], b=sides[1], margin=POINTS, kind="share"
    )


def groups_apart(change: float, half: float, verdict: Any = "changed", **more: Any) -> Groups:
    """The coast against inland."""
    return moved(change, half, verdict, Groups, sides=("inland", "coast"), **more)


def gap_between(
    one: float, other: float, change: float, half: float, verdict: Any = "changed", **more: Any
) -> Gap:
    """How spin changed against how pace did."""
    a, b = (_group(size) for size in (one, other))
    return moved(change, half, verdict, Gap, **{"sides": ("pace", "spin"), "a": a, "b": b, **more})


def _group(size: float) -> GroupChange:
    found = group_change(matches=40)
    return msgspec.structs.replace(found, change=span(size, 0.03), difference=span(5 * size, 0.15))


def part(
    kind: type[Kind], change: float, half: float, verdict: Any = "changed", **more: Any
) -> Kind:
    """What a mix, or the rates, did alone."""
    return moved(change, half, verdict, kind, **more)


def turn(
    verdict: Any = "changed",
    change: float = -0.1,
    half: float = 0.03,
    refused: Any = None,
    because: Any = "beyond_chance",
    **date: Any,
) -> Turn:
    """A break between 2016 and 2017, or where `date` says."""
    plain: dict[str, Any] = {
        **{"last": "2016", "next": "2017", "low": "2015", "high": "2018", "every": "season"},
        **{"points": 14, "dates": 9, "sup_f": 31.4, "second": None, "fit": []},
        "trend": 0.006,
        "event": EventPlace(inside=True, rank=1),
    }
    found = None if refused else TurningDate(**{**plain, **date})
    told = {"turn": found, "refused": refused, "because": because}
    return moved(change, half, verdict, Turn, **told, sides=("level before", "level after"))


def player(apart: bool, name: str = "A Quibble", moved_too: bool = True, **more: Any) -> Player:
    """A spinner a fifth cheaper, hardly less with luck allowed for."""
    drawn = Shrunk(
        **{"change": -0.17, "low": -0.28, "high": -0.05, "apart": apart, "moved": moved_too},
        **{"group": "spin", "mean": -0.16, "of": 9, "among": more.pop("among", None)},
    )
    return moved(-0.2, 0.1, kind=Player, **{"values": {"bowler": name}, "shrunk": drawn, **more})


def alone(found: Player) -> Player:
    """The same with nobody else of the kind: the mean of the kind is the player's own change."""
    drawn = msgspec.structs.replace(found.shrunk, of=1, mean=found.shrunk.change)
    return msgspec.structs.replace(found, shrunk=drawn)


def players_list(kept: int, **more: Any) -> PlayersList:
    """So many bowlers with enough in both windows; nine had too little."""
    arms = {"right pace": kept - 2, "left pace": 1, "right spin": 5, "left spin": 4}
    plain: dict[str, Any] = {
        **{"kept": kept, "in_both": kept + 9, "left_out": 9, "in_either": kept + 30},
        **{"arms": arms, "hands": {}, "kinds": {}, "styles": {}, "tags": {}},
        "at_least": AtLeast(count=300, of="balls"),
    }
    return PlayersList(**{**plain, **more})


def beside(verdict: Any, **test: Any) -> Drift:
    """The second verdict beside a drift of one per cent a season, the step thirteen down."""
    usual = -0.13 if verdict == "beyond the drift" else 0.01
    step, half = test.pop("step", usual), 0.04
    plain = {"slope": slope(0.01), "expected": slope(0.05, 0.015)}
    return drift(verdict, test=step_test(step, half, **{**plain, **test}))


def untested(because: Any = "few_periods_before", before: int = 5, after: int = 6) -> Drift:
    return drift("not testable", because, periods_before=before, periods_after=after)
