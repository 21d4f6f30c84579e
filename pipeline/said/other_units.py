"""A number of a fact that is said with another unit: per cent for points, runs for runs an over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

from pipeline.said.candidates import CLOSE, Candidate, best_of, candidates, distance
from pipeline.said.number_heard import Heard
from pipeline.said.targets import MOVES, ONLY_NAMED, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import OVER, PER_CENT, POINTS

AHEAD = 0.1  # how much better it has to fit than one that is said nearly rightly
FINE_SIZE = 0.05  # the same of a change that is said as one
FINE = 0.03  # of its value: how near a number in another unit is a fact's
# Units that are taken for one another: a share's points for per cent, runs for runs an over.
_TAKEN_FOR = {
    (PER_CENT, POINTS), (POINTS, PER_CENT), ("runs", OVER), (OVER, "runs"), (PER_CENT, "balls"),
    ("balls", PER_CENT), (PER_CENT, "boundaries"), (PER_CENT, "runs"), ("runs", PER_CENT),
    (PER_CENT, OVER), (POINTS, OVER), (OVER, PER_CENT), (PER_CENT, "dot balls"),
    ("boundaries", PER_CENT), (PER_CENT, "balls a wicket"), ("runs", "balls"), ("balls", "runs"),
    ("runs", "balls a wicket"), (POINTS, "balls"), ("overs", "balls"), ("boundaries", POINTS),
    ("runs", "boundaries"), ("boundaries", "runs"), ("wickets", "balls"), ("wickets", "runs"),
    ("dot balls", PER_CENT), ("runs", POINTS),
    ("fours", "boundaries"), ("overs", "runs"), ("balls", POINTS),
    ("balls", "boundaries"), ("boundaries", "balls"), ("runs a wicket", "balls a wicket"),
    (POINTS, "balls a wicket"), (PER_CENT, "runs a hundred balls"),
}  # fmt: skip


def wrong_unit(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known, own: Sequence[Candidate]
) -> Target | None:
    """The value of a fact that is counted in another unit, which is said with this one."""
    if heard.unit is None or not (heard.own_unit or heard.unit in (PER_CENT, POINTS)):
        return None
    best = best_of(own) if own else 2.0
    named = not ONLY_NAMED.isdisjoint(heard.names) or not ONLY_NAMED.isdisjoint(carried)
    near = min((each.worse for each in own if _is_near(each, heard, best)), default=best + 1)
    shared = {PER_CENT, POINTS} if not (heard.own_unit or heard.pair) else None
    for unit in [other for taken, other in _TAKEN_FOR if taken == heard.unit]:
        if shared and unit not in shared:
            continue
        others = candidates(heard, carried, known.targets_in(unit, named))
        fitting = [each for each in others if each.worse <= best + CLOSE and _is_close(each, heard)]
        if fitting and (fitting[0].worse < near - AHEAD or shared or _is_share_of(unit, heard)):
            return fitting[0].target
    return None


def _is_near(each: Candidate, heard: Heard, best: float) -> bool:
    """A fact that is counted as it is said, and nearly said rightly: that one is meant."""
    if each.target.role in MOVES and not _is_size(heard):
        return False
    return each.how == "near" and each.way and each.worse <= best + CLOSE


def _is_size(heard: Heard) -> bool:
    return heard.is_move or heard.leads == "by"


def _is_share_of(unit: str, heard: Heard) -> bool:
    """Points for per cent, and the other way round."""
    return {unit, heard.unit} == {PER_CENT, POINTS}


def _is_close(each: Candidate, heard: Heard) -> bool:
    """Said rightly, and finely enough not to be so by chance."""
    if each.how != "right" or (each.target.role == "level" and heard.way and heard.leads == "by"):
        return False
    if each.target.role == "level" and heard.unit == POINTS and heard.way:
        return False
    if heard.said.step <= 0.11 or _is_share_of(each.target.unit, heard):
        return True
    off = abs(abs(each.end) - heard.said.value) / abs(each.end) if each.end else None
    size = each.target.role == "move" and _is_size(heard) and heard.hedge
    away = distance(each.target, heard.said) if off is None else off
    return away <= (FINE_SIZE if size else FINE)
