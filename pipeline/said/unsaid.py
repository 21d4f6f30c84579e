"""A number that no fact says: near one, other than one, of nothing that a fact is about."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

from pipeline.said.candidates import AHEAD, CLOSE, Candidate, best_of, candidates, distance
from pipeline.said.judgement import Judged
from pipeline.said.no_statistic import SMALL
from pipeline.said.number_heard import Heard
from pipeline.said.subjects import LATER
from pipeline.said.targets import MOVES, WHEN, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import OVER, PER_CENT, POINTS

OF_ITSELF = 2.6  # how badly a share may fit that is said to move in per cent
OTHERS = 0.8  # of their value: from here matches or balls are others than the topic's
FEW = 3  # players or comparisons: so many are a word
MANY = 1_000  # from here a count of balls or matches is the topic's own
FAR = 2.2  # how badly the best of them may fit, to be of the same thing
_ANY_UNIT = {PER_CENT, POINTS, OVER, "runs"}  # in which facts of many things are counted
# Units that say which measure it is.
_TELLING = {"balls a wicket", "runs a wicket", "runs a hundred balls", "matches", "comparisons"}


def off(
    heard: Heard, carried: Mapping[str, Set[str]], own: Sequence[Candidate], known: Known
) -> Judged:
    """No fact says it: near one, other than one, of nothing that a fact is about."""
    if count := _counted(heard, known):
        return Judged("supported", count)
    near = {cut for cut, told in heard.names.items() if told.level < LATER} - WHEN
    named = near or set(heard.names) - WHEN
    of_something = named or (heard.of_something and not carried)
    strange = any(value.startswith("?") for each in heard.names.values() for value in each.values)
    if strange or _is_of_another_measure(heard, carried, known):
        return Judged("unsupported")
    if share := _of_itself(heard, carried, known):
        return Judged("contradicted", share)
    if not own:
        if heard.said.value in known.background and not named:
            return Judged("not a statistic")
        own_unit = heard.own_unit and heard.unit not in _ANY_UNIT
        return Judged("unsupported" if of_something or own_unit else "for a person")
    if heard.unit in ("players", "comparisons") and heard.said.value <= FEW:
        return Judged("not a statistic")  # 'two bowlers, one question'
    best = best_of(own)
    meant = [each for each in own if each.worse <= best + CLOSE]
    if heard.said.value < MANY or heard.unit not in ("balls", "matches"):
        if heard.unit != "players":
            meant = [each for each in meant if each.target.names] or meant
        told = any(is_told(heard, each.target) for each in meant)
        if not (named or carried or told):
            return Judged("unsupported" if of_something else "for a person")
    if heard.of_others or (heard.other_head and "measure" not in heard.names):
        return Judged("unsupported")
    if (
        not named
        and heard.of_something
        and "data" not in heard.all_parts
        and not any(each.target.names for each in meant)
    ):
        return Judged("unsupported")  # 'rain took seventeen matches'
    close = [each for each in meant if each.how == "near" and each.way and _is_rounded(each)]
    if close:
        closest = min(close, key=lambda each: distance(each.target, heard.said))
        return Judged("rounded too far", closest.target)
    known_as_fact = [each for each in meant if each.target.fact] or meant
    closest = min(known_as_fact, key=lambda each: _unlikely(each, heard, best))
    if best > FAR:
        return Judged("unsupported" if named else "for a person", closest.target)
    others = not named or heard.said.form == "overs"
    counted = others and not closest.target.names and closest.target.unit in ("matches", "balls")
    far = distance(closest.target, heard.said) > OTHERS and "data" not in heard.all_parts
    if counted and far:
        return Judged("unsupported")  # 'eleven matches were washed out'
    if heard.unit == "players" and "listed" not in heard.all_parts and heard.own_unit:
        return Judged("unsupported")  # 'the side used seven bowlers'
    return Judged("contradicted", closest.target)


def _is_of_another_measure(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> bool:
    """Whether the measure that is named is none of the topic's: 'wides a match'."""
    own = heard.names.get("measure")
    if own is not None and own.level < LATER:
        return not own.values & known.measures
    told = set(carried.get("measure", ()))
    speaks = set(heard.names) - WHEN
    return own is None and bool(told) and not speaks and not told & known.measures


def _of_itself(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Target | None:
    """The move of a share that is said in per cent of itself: it is told in points."""
    if heard.unit != PER_CENT or not heard.is_move or {"step", "drift"} & heard.all_parts:
        return None
    shares = {target.names.get("measure", "") for target in known.shares_moved}
    goes_on = "measure" not in heard.names and shares & set(carried.get("measure", ()))
    if "measure" not in heard.names and "share" not in heard.all_parts and not goes_on:
        return None
    found = candidates(heard, carried, known.shares_moved)
    best = next((each for each in found if each.target.role == "move"), None)
    return best.target if best and best.worse <= OF_ITSELF else None


def is_told(heard: Heard, target: Target) -> bool:
    """Whether the number's own unit, or what it is a part of, says what it is of."""
    parts = {"gap", "mix"} & set(target.names) & heard.all_parts
    listed = target.unit == "players" and "listed" in heard.all_parts
    return not target.names or heard.unit in _TELLING or bool(parts) or listed


def _counted(heard: Heard, known: Known) -> Target | None:
    """A count whose noun is left out: 'thirty more played'."""
    bare = heard.unit is None and not set(heard.names) - {WINDOW}
    listed = "players" in heard.units or (bare and bool({"listed", "spread"} & heard.all_parts))
    if not listed or heard.own_unit or not heard.said.whole:
        return None
    few = heard.said.value <= SMALL
    if few and "listed" not in heard.parts:
        return None
    exact = (each for each in known.targets_in("players") if each.fact or not few)
    return next((each for each in exact if each.value == heard.said.value), None)


def _is_rounded(each: Candidate) -> bool:
    """Counts that are no facts, of whom a list has, are said as they are or wrongly."""
    return each.target.role != "count" or each.target.fact is not None


def _unlikely(each: Candidate, heard: Heard, best: float) -> tuple[bool, bool, float]:
    """What a number was meant to say: the fact of its side and way, the nearest one."""
    is_size = heard.unit is None and not heard.is_move and each.target.role in MOVES
    return not each.way, each.worse > best + AHEAD or is_size, distance(each.target, heard.said)
