"""A number of a fact that is said with another unit: per cent for points, runs for runs an over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

from pipeline.said.candidates import CLOSE, Candidate, best_of, candidates, distance
from pipeline.said.number_heard import Heard
from pipeline.said.targets import ONLY_NAMED, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import OVER, PER_CENT, POINTS

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
    shared = {PER_CENT, POINTS} if not heard.own_unit else None
    for unit in [other for taken, other in _TAKEN_FOR if taken == heard.unit]:
        if shared and unit not in shared:
            continue
        others = candidates(heard, carried, known.targets_in(unit, named))
        fitting = [each for each in others if each.worse <= best + CLOSE and _is_close(each, heard)]
        if fitting:
            return fitting[0].target
    return None


def _is_close(each: Candidate, heard: Heard) -> bool:
    """Said rightly, and finely enough not to be so by chance."""
    if each.how != "right" or (each.target.role == "level" and heard.way and heard.leads == "by"):
        return False
    if each.target.role == "level" and heard.unit == POINTS and heard.way:
        return False
    fine = heard.said.step <= 0.11 or {heard.unit, each.target.unit} == {PER_CENT, POINTS}
    return fine or distance(each.target, heard.said) <= FINE
