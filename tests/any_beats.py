"""Random beats over the whole grammar: every kind, measure, cut, filter, control.

They are written as a topic file has them. Nearly all are valid when they are read; the data refuse
about a half of them, since a filter may leave no balls. The values are those of tests/untidy.py.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

from pipeline.config.cuts import CUTS, DIVIDING
from pipeline.config.kinds import KINDS
from pipeline.config.kinds.share import SHARED_OUT
from pipeline.config.kinds.streaks import OUTCOMES, WHOLE_INNINGS
from tests.untidy import SEASONS, SIDES

Tree = dict[str, Any]
LISTS = {"quick": ["Ann Moor", "id-ida"], "new": ["Zoe Fold"]}
NAMES = ["Ann Moor", "id-joy", "Sue Holm", "Zoe Fold", "Dot Moor"]
# What each cut that is open has in the league; the others have their own values.
OPEN: dict[str, list[str]] = {
    "phase": ["powerplay", "middle", "death"],
    "bowler_style": ["fast", "medium", "wrist spin", "finger spin", "unknown"],
    **{cut: list(SIDES) for cut in ("batting_team", "bowling_team", "team")},
    "season": [season for season, *_ in SEASONS],
    "ground": ["Moor Top", "Fen Side", "Holm Point", "Nobody's Field", "Far Paddock"],
    "region": ["inland", "coast", "unknown"],
    "country": ["Lower Merrow", "Upper Merrow", "unknown"],
    "competition": ["Pebble Cup", "Sand Cup"],
    "bowler": NAMES,
    "batter": NAMES,
    "bowler_tag": ["keeper", *LISTS],
    "batter_tag": ["keeper", *LISTS],
}
OVERS = ["1-10", "11-40", "1-20", "16-50", "45", "34", "1"]
BANDS = ["3 overs", "10 overs", "1 over", ["1-6", "20-30"], ["1-10", "11-40", "41-50"], ["45"]]
LEAST = ["10 balls", "1 match", "3 matches", "6 matches", "40 balls", "9000 balls"]
BY_MATCH = ["win_share", "decided_share"]
PER_BALL = [
    *("economy", "run_rate", "wickets_per_hundred", "batting_strike_rate"),
    *("dot_share", "boundary_share", "nothing_lost"),
]
OTHERS = [
    *("bowling_average", "bowling_strike_rate", "batting_average", "fours_per_innings"),
    *("sixes_per_innings", "innings_total", "outs_a_match", "worth"),
]


def values_of(cut: str) -> list[str]:
    return OPEN.get(cut) or list(CUTS[cut].values)


def any_beat(rng: Random, name: str, timed: bool) -> Tree:
    """A beat of any kind; without an event (`timed`) of those that need none."""
    kinds = [kind for kind, model in KINDS.items() if timed or not model.traits.timed]
    kind = rng.choice(kinds)
    beat: Tree = {"id": name, "kind": kind, "where": filters(rng), **OF_KIND[kind](rng)}
    if rng.random() < 0.1:
        beat |= {"title": "What of it?", "note": "Slowly."}
    if timed and "control" in KINDS[kind].model_fields and rng.random() < 0.4:
        beat["control"], beat["where"] = control(rng, beat["where"], beat.get("by"))
    if "measure" in KINDS[kind].model_fields:
        beat["measure"] = _measures(rng, beat)
    return {key: value for key, value in beat.items() if value not in ({}, None, [])}


def filters(rng: Random) -> Tree:
    """None, one, two or three; of every key that a `where` has."""
    keys = rng.sample(["overs", *(set_ := sorted(set(CUTS) - {"band"}))], len(set_) + 1)
    count = rng.choices((0, 1, 2, 3), (50, 32, 14, 4))[0]
    return {key: _chosen(rng, key) for key in keys[:count]}


def _chosen(rng: Random, key: str) -> Any:
    if key == "overs":
        return rng.choice(OVERS)
    there = values_of(key)
    several = rng.sample(there, rng.randint(1, max(1, len(there) - 1)))
    return several[0] if len(several) == 1 or rng.random() < 0.2 else several


def control(rng: Random, where: Tree, by: Any = None) -> tuple[Tree, Tree]:
    """(a control, the filters of its beat): mostly apart from it, by a filter or a competition."""
    named: Tree = {"name": "what it left alone"}
    draw = rng.random()
    if draw < 0.3:
        more = {"where": filters(rng)} if rng.random() < 0.3 else {}
        return {**named, "competition": "Shingle Cup", **more}, where
    if draw < 0.5 and by:
        cut = by if isinstance(by, str) else rng.choice(by)
        return {**named, "where": {cut: rng.choice(values_of(cut))}}, where
    if draw < 0.6:
        return {**named, "where": {"overs": "30-50"}}, {**where, "overs": "1-16"}
    if draw < 0.95:
        cut = rng.choice(["bowler_kind", "bowler_arm", "batter_hand", "innings", "phase", "home"])
        one, other = rng.sample(values_of(cut), 2)
        return {**named, "where": {cut: other}}, {**where, cut: one}
    return {**named, "where": filters(rng) or {"innings": "1"}}, where


def _by(rng: Random, cuts: list[str], least: int = 0, most: int = 2) -> Any:
    chosen = rng.sample(cuts, rng.choices((0, 1, 2), (3, 5, 2))[0])[:most]
    chosen = chosen if len(chosen) >= least else rng.sample(cuts, least)
    return chosen[0] if len(chosen) == 1 and rng.random() < 0.5 else chosen


def _between(rng: Random, most: int) -> Tree:
    cut = rng.choice(list(DIVIDING))
    return {
        "between": {cut: rng.sample(values_of(cut), 2)},
        "by": _by(rng, [other for other in DIVIDING if other != cut], most=most),
    }


def _shares(rng: Random) -> Tree:
    cut = rng.choice(SHARED_OUT)
    named = [value for value in values_of(cut) if value != "unknown"]
    return {
        "of": {cut: rng.sample(named, rng.randint(1, len(named)))},
        "by": _by(rng, list(DIVIDING)),
    }


def _streaks(rng: Random) -> Tree:
    length = rng.choice((None, 2, 2, 3, 12))
    return {
        "of": rng.choice(list(OUTCOMES)),
        "length": length,
        "by": _by(rng, list(WHOLE_INNINGS)),
    }


def _players(rng: Random) -> Tree:
    return {"role": rng.choice(("bowler", "batter")), "at_least": rng.choice(LEAST)}


def _series(rng: Random) -> Tree:
    every = rng.choice((None, "season", "year", "half-year", "quarter", "month"))
    return {"every": every, "blind": rng.random() < 0.3}


OF_KIND: dict[str, Callable[[Random], Tree]] = {
    "before_after": lambda rng: {"by": _by(rng, list(DIVIDING))},
    "gap": lambda rng: _between(rng, 1),
    "trend": _series,
    "turning_point": _series,
    "phases": lambda rng: {"bands": rng.choice([None, *BANDS])},
    "share": _shares,
    "mix": lambda rng: {"by": _by(rng, list(DIVIDING), least=1)},
    "groups": lambda rng: _between(rng, 2),
    "players": _players,
    "streaks": _streaks,
}


def _measures(rng: Random, beat: Tree) -> Any:
    """One or two that the kind can take; seldom one that its result has decided."""
    traits = KINDS[beat["kind"]].traits
    there = list(PER_BALL) if traits.per_ball else [*PER_BALL, *OTHERS]
    by_result = any("result" in beat.get(key, ()) for key in ("where", "by", "between"))
    if traits.takes_matches and (not by_result or rng.random() < 0.02):
        there += BY_MATCH * 2
    chosen = rng.sample(list(dict.fromkeys(rng.sample(there, len(there)))), rng.choice((1, 1, 2)))
    return chosen[0] if len(chosen) == 1 else chosen
