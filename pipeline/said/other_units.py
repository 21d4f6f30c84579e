"""A number of a fact that is said with another unit: per cent for points, runs for runs an over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace

from pipeline.said.candidates import CLOSE, Candidate, best_of, candidates, distance
from pipeline.said.number_heard import Heard
from pipeline.said.subjects import LATER
from pipeline.said.targets import MOVES, ONLY_NAMED, WHEN, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import OVER, PER_CENT, POINTS

AHEAD = 0.1  # how much better it has to fit than one that is said nearly rightly
FINE_SIZE = 0.05  # the same of a change that is said as one
NAMED = 1.25  # how badly the fact that is named may fit, whatever its number is counted in
SAME = 0.01  # of its value: how near, however coarsely it is said
MANY, EXACT = 100, 0.005  # balls or matches that are the topic's own, and how exactly
DIGITS = 3  # that a number is said with, to be known as a fact's without its measure
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
    ("sixes", "boundaries"), ("balls", "matches"), ("matches", "balls"), ("overs", "matches"),
    ("matches", "players"), ("players", "matches"), ("wickets", "matches"), ("players", "balls"),
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
    found: list[Candidate] = []
    for unit in sorted(other for taken, other in _TAKEN_FOR if taken == heard.unit):
        if shared and unit not in shared:
            continue
        others = candidates(heard, carried, known.targets_in(unit, named))
        fitting = [each for each in others if each.worse <= best + CLOSE and _is_close(each, heard)]
        fitting = [each for each in fitting if each.target.names or _is_of_all(each, heard)]
        if fitting and (fitting[0].worse < near - AHEAD or shared or _is_share_of(unit, heard)):
            found.append(fitting[0])
    return min(found, key=lambda each: (each.worse, each.target.unit)).target if found else None


def _is_of_all(each: Candidate, heard: Heard) -> bool:
    """A count of the topic's own, of which nothing is named: '314,939 matches'."""
    alone = not set(heard.names) - WHEN and not heard.of_something
    return alone and heard.said.value >= MANY and distance(each.target, heard.said) <= EXACT


def any_unit(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known, own: Sequence[Candidate]
) -> Target | None:
    """The value of the very fact that is named, said finely, with a unit that it never has.

    'An economy of 4.47 runs a wicket', 'the boundary share is 5.9 boundaries an over'.
    """
    measure = heard.names.get("measure")
    shared = measure is None and "share" in heard.parts
    spoken = heard.own_unit or (heard.unit in heard.units and heard.unit not in (PER_CENT, POINTS))
    if not spoken or not (shared or measure is None or measure.level < LATER):
        return None
    bare = measure is None and not shared
    if bare and (_digits(heard) < DIGITS or not set(heard.names) - WHEN):
        return None
    best = best_of(own) if own else 0.0
    if any(_is_near(each, heard, best) for each in own):
        return None
    named = not ONLY_NAMED.isdisjoint(heard.names) or not ONLY_NAMED.isdisjoint(carried)
    found: list[Candidate] = []
    for unit in known.units:
        if unit != heard.unit:
            told = replace(heard, unit=unit)
            found += candidates(told, carried, known.targets_in(unit, named))
    fine = [each for each in found if each.worse <= NAMED and _is_fine(each, heard)]
    if bare:
        step = heard.said.step / 2 + 1e-9
        fine = [e for e in fine if abs(abs(e.target.value) - abs(heard.said.value)) <= step]
    return min(fine, key=lambda each: each.worse).target if fine else None


def _digits(heard: Heard) -> int:
    """How many it is said with: three of 7.26."""
    value, step = abs(heard.said.value), heard.said.step
    return len(f"{value / step:.0f}") if step <= 1 and value else 0


def _is_fine(each: Candidate, heard: Heard) -> bool:
    if each.how != "right" or not each.way or not each.target.names:
        return False
    away, coarse = distance(each.target, heard.said), 0.51 if "measure" in heard.names else 0.11
    return away <= SAME or (heard.said.step <= coarse and away <= FINE)


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
    way = heard.way or (heard.said.signed and (1 if heard.said.value > 0 else -1))
    if way and not each.way and each.target.role in MOVES:
        return False
    stands = heard.side is not None and not _is_size(heard) and not heard.way
    if stands and each.target.role in MOVES and not _is_share_of(each.target.unit, heard):
        return False  # 'at 5.5 an over before', which is no change of anything
    if each.how != "right" or (each.target.role == "level" and heard.way and heard.leads == "by"):
        return False
    if each.target.role == "level" and heard.unit == POINTS and heard.way:
        return False
    if heard.said.step <= 0.11 or _is_share_of(each.target.unit, heard):
        return True
    off = abs(abs(each.end) - heard.said.value) / abs(each.end) if each.end else None
    size = each.target.role in ("move", "felt") and _is_size(heard) and heard.hedge
    away = distance(each.target, heard.said) if off is None else off
    return away <= (FINE_SIZE if size else FINE)
