"""How well a fact fits what a number is said of: the less, the better; none where it can't be."""

from __future__ import annotations

from collections.abc import Mapping, Set

from pipeline.said.number_heard import Heard
from pipeline.said.rounding import UNDER
from pipeline.said.subjects import CLAUSE, LATER
from pipeline.said.targets import CONTROL, EVENT, ONLY_NAMED, SHARE, WHOLE, WINDOW, Target
from pipeline.said.units import PER_CENT

# What a part of a finding needs to be said of it, by its role.
_NEEDS = {
    "step": {"step"}, "like": {"like"}, "held": {"held"}, "luck": {"luck"},
    "control": {"control"}, "yardstick": {"yardstick"},
}  # fmt: skip
_OF_A_PLAYER = {"bowler_kind", "bowler_arm", "bowler_style", "batter_hand", "batting_order"}
_LEVEL_UNITS = {"an over", "balls a wicket", "runs a wicket", "runs a hundred balls"}


def fit(target: Target, heard: Heard, carried: Mapping[str, Set[str]]) -> float | None:
    """`carried` are the names of the sentences before and of the heading."""
    if not target.names:
        held = target.role == "margin" and not _is_margin(heard)
        return None if heard.unit is None or held else 0.3
    role = _role(target, heard)
    own = None if role is None else _own(target, heard)
    rest = None if own is None else _unnamed(target, heard, carried)
    if role is None or own is None or rest is None:
        return None
    other = "mix" in heard.all_parts and "mix" not in target.names and not heard.names
    return role + own + rest + 2 * other


def _own(target: Target, heard: Heard) -> float | None:
    """The names of the sentence: each is the fact's own, or it is of something else."""
    worse = 0.0
    allowed = target.allowed
    for cut, named in heard.names.items():
        own = allowed.get(cut)
        if cut in (WINDOW, target.between) or (own and not own.isdisjoint(named.values)):
            worse += 0.05 * named.level * (cut != WINDOW)
        elif cut == EVENT or (own is None and WHOLE in named.values):
            continue
        elif cut == CONTROL:
            worse += 0.0 if target.role == "control" else 0.5
        elif (
            cut == "season"
            and own is None
            and (heard.way or named.level > CLAUSE or target.role == "step")
        ):
            worse += 0.3
        elif target.is_only_named and cut in _OF_A_PLAYER:
            worse += 0.1  # 'Lorvivick, a spinner'
        elif own is None and len(named.values) > 1 and cut in _OF_A_PLAYER:
            worse += 0.5  # 'pace and spin together'
        elif named.level == LATER:
            worse += 1.5
        elif cut == "measure" and target.role == "count":
            worse += 0.2
        else:
            return None
    return worse


def _unnamed(target: Target, heard: Heard, carried: Mapping[str, Set[str]]) -> float | None:
    """What the fact is of and the sentence does not name, and what was named before it."""
    worse = 0.0
    speaks = any(cut not in (WINDOW, EVENT, "season", target.between) for cut in heard.names)
    for cut, value in target.names.items():
        if cut in heard.names or cut in (WINDOW, "~ways"):
            continue
        if target.role == "count":
            return None  # how many of a kind there are
        if cut in carried:
            if value not in carried[cut] and not speaks:
                return None
            worse += 0.1 if value in carried[cut] else 2.5
        elif cut in ONLY_NAMED:
            return None
        else:
            worse += _missing(cut, target, heard, carried)
    for cut in carried:
        if cut not in heard.names and cut not in target.names and cut != target.between:
            worse += 0.6 if speaks else 1.2
    return worse


def _missing(cut: str, target: Target, heard: Heard, carried: Mapping[str, Set[str]]) -> float:
    """How much worse it is that a name of the fact is not said."""
    if cut == "measure":
        return 0.3
    if cut == "gap":
        told = heard.names.get(target.between)
        named = told.values if told else carried.get(target.between, set())
        return 0.0 if {"gap", "beside"} & heard.all_parts or len(named) > 1 else 2.0
    if cut == "mix":
        if target.names.get("measure") == SHARE:
            return 0.1  # who bowled how much, which a mix is made of
        return 0.0 if target.names[cut] in heard.all_parts else 2.0
    if cut == "turn":
        return 0.1 if "turn" in heard.all_parts else 2.0
    return 0.8 if target.fact and target.fact.headline else 1.2


def _role(target: Target, heard: Heard) -> float | None:
    """Whether it can be that part of a finding: the drift is what is said of a season."""
    role, parts = target.role, heard.all_parts
    pair = heard.pair is not None and not heard.pair.spread
    sided = (pair or heard.side is not None) and not heard.said.signed
    if heard.unit is None and (
        (role == "felt" and not heard.is_difference) or (sided and role != "level")
    ):
        return None
    if heard.a_time and role not in ("drift", "yardstick"):
        return None
    if role == "drift":
        if not (heard.a_time or "drift" in parts):
            return None
        return 0.0 if heard.a_time or "drift" in heard.parts else 0.5
    if role in _NEEDS and not _NEEDS[role] & parts:
        return None
    if role == "margin":
        return 0.4 if _is_margin(heard) else None
    if role == "part" and ("mix" if "mix" in target.names else "spread") not in parts:
        return None
    if target.names.get("measure") == SHARE and "share" not in parts:
        return None
    if role in ("move", "level") and ("step" in heard.parts or "spread" in heard.parts):
        return 1.0
    if role == "level":
        by_so_much = heard.leads == "by" and heard.way and not heard.pair
        apart = heard.is_difference and target.unit in _LEVEL_UNITS
        if by_so_much or apart or (heard.is_move and target.unit == PER_CENT):
            return None
        comes_to = heard.leads in ("to", "from") or heard.pair is not None
        if heard.is_move and target.unit in _LEVEL_UNITS and not comes_to:
            return 1.2  # 'down four runs an over' is no level, where a change may be meant
        small = target.unit in _LEVEL_UNITS and heard.said.value * 3 < abs(target.value)
        return 0.6 if _is_size(heard) or small else 0.0
    if role == "move" and target.unit in _LEVEL_UNITS and not _is_size(heard):
        return 0.6 if heard.said.value > max(3 * abs(target.value), 0.5) else 0.0
    return 0.0


def _is_margin(heard: Heard) -> bool:
    return heard.hedge in UNDER or "settle" in heard.all_parts


def _is_size(heard: Heard) -> bool:
    """'by half a run', 'half a run cheaper': a size and no level."""
    return heard.leads == "by" or heard.is_move
