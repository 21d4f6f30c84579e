"""One number held against the facts: which of them it says, and how rightly."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace
from typing import NamedTuple

from pipeline.contracts.script_check import Result
from pipeline.said.fitting import fit
from pipeline.said.plain_numbers import SMALL
from pipeline.said.read_numbers import Said
from pipeline.said.rounding import How
from pipeline.said.saying import how_said, way_fits
from pipeline.said.sounded import Heard
from pipeline.said.subjects import LATER
from pipeline.said.targets import EVENT, ONLY_NAMED, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import OVER, PER_CENT, POINTS

ALIKE = 0.75  # how much worse a fact may fit than the best one, and still be what is meant
AHEAD = 0.3  # how much better the fact of another way has to fit, to be the one that is meant
CLOSE = 0.65  # the same where the value is another one
MANY = 1_000  # from here a count of balls or matches is the topic's own
FINE = 0.03  # of its value: how near a number in another unit is a fact's
STALE = 0.05  # of its value: how coarse a number may be, to be known as an earlier edition's
# Units that are taken for one another: a share's points for per cent, runs for runs an over.
_TAKEN_FOR = {
    (PER_CENT, POINTS), (POINTS, PER_CENT), ("runs", OVER), (OVER, "runs"), (PER_CENT, "balls"),
    ("balls", PER_CENT), (PER_CENT, "boundaries"), (PER_CENT, "runs"), ("runs", PER_CENT),
    (PER_CENT, OVER), (POINTS, OVER), (OVER, PER_CENT), (PER_CENT, "dot balls"),
    ("boundaries", PER_CENT), (PER_CENT, "balls a wicket"), ("runs", "balls"), ("balls", "runs"),
    ("runs", "balls a wicket"), (POINTS, "balls"), ("overs", "balls"), ("boundaries", POINTS),
    ("runs", "boundaries"), ("boundaries", "runs"), ("wickets", "balls"), ("wickets", "runs"),
    ("dot balls", PER_CENT), ("matches", "balls"), ("balls", "matches"), ("runs", POINTS),
    ("fours", "boundaries"), ("overs", "runs"), (PER_CENT, "runs a hundred balls"), ("balls", POINTS),
    ("balls", "boundaries"), ("boundaries", "balls"), ("runs a wicket", "balls a wicket"),
    ("wickets an over", OVER), ("points", "balls a wicket"), ("runs a match", "runs"),
}  # fmt: skip


# Units that say which measure it is.
_TELLING = {"balls a wicket", "runs a wicket", "runs a hundred balls", "matches", "comparisons"}


class Judged(NamedTuple):
    """A result, with the fact it was held against where there is one."""

    result: Result
    target: Target | None = None
    end: float | None = None  # the end of its interval that is said, where it is one


class Candidate(NamedTuple):
    worse: float
    target: Target
    how: How
    way: bool
    end: float | None = None


def judged(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Judged:
    of_seasons = "seasons" in heard.units and not heard.own_unit and heard.said.value <= SMALL
    if heard.plain or heard.withdrawn or (of_seasons and heard.unit in (None, "seasons")):
        return Judged("not a statistic")
    if heard.said.form == "score":
        return Judged("unsupported")
    heard = _as_said(heard)
    named = not ONLY_NAMED.isdisjoint(heard.names) or not ONLY_NAMED.isdisjoint(carried)
    own = _candidates(heard, carried, known.targets_in(heard.unit, named))
    whole = heard.own_unit or heard.said.form != "number" or _supported(own)
    for other in () if whole else _other_units(heard):
        levels = [each for each in known.targets_in(other, named) if each.role == "level"]
        more = _candidates(heard, carried, levels)
        if _supported(more):
            heard, own = replace(heard, unit=other), more
            break
    found, other_way = _supported(own), _right_but_for_way(own)
    if found and other_way and other_way.worse + AHEAD < found.worse:
        return Judged("wrong direction", other_way.target)
    if found:
        clear = set(heard.names) - {WINDOW, EVENT} or carried or _is_told(heard, found.target)
        return Judged("supported" if clear else "for a person", found.target, found.end)
    if other_way:
        return Judged("wrong direction", other_way.target)
    if swapped := _swapped(own, heard, known):
        return Judged("wrong direction", swapped)
    if stale := _stale(heard, carried, known, own):
        return Judged("stale", stale)
    if wrong := _wrong_unit(heard, carried, known, own):
        return wrong
    return _off(heard, carried, own, known)


def ends_apart(heard: Sequence[Heard], found: Sequence[Judged]) -> list[Judged]:
    """Of a range whose two ends are said to be the same end, the second goes the wrong way."""
    told = list(found)
    for each in heard:
        if each.pair is None or not each.pair.spread or each.pair.at == 0:
            continue
        one, two = found[each.pair.first], found[each.pair.last]
        same = one.end is not None and one.end == two.end and one.target is two.target
        if same and two.target and two.target.low != two.target.high:
            told[each.pair.last] = Judged("wrong direction", two.target)
    return told


def _other_units(heard: Heard) -> list[str | None]:
    """Where a number has none of its own: what others of the sentence are counted in, or any."""
    others: list[str | None] = [*sorted(heard.units - {heard.unit})]
    return [*others, None] if heard.names else others


def _is_told(heard: Heard, target: Target) -> bool:
    """Whether the number's own unit, or what it is a part of, says what it is of."""
    parts = {"gap", "mix"} & set(target.names) & heard.all_parts
    return not target.names or heard.unit in _TELLING or bool(parts)


def _as_said(heard: Heard) -> Heard:
    """A part of the whole as per cent; overs as balls."""
    said = heard.said
    if said.form == "odds" or (said.form == "share" and not heard.own_unit):
        told = replace(said, value=said.value * 100, step=said.step * 100)
        return replace(heard, said=told, unit=PER_CENT)
    if said.form == "overs" or (heard.unit == "overs" and said.form in ("number", "share")):
        told = replace(said, value=said.value * 6, step=min(said.step * 6, 6))
        return replace(heard, said=told, unit="balls")
    return heard


def _candidates(
    heard: Heard, carried: Mapping[str, Set[str]], targets: Sequence[Target]
) -> list[Candidate]:
    found = []
    for target in targets:
        worse = fit(target, heard, carried)
        if worse is not None:
            how, end = how_said(target, heard)
            if heard.unit is None:
                worse += 0.3
            found.append(Candidate(worse, target, how, way_fits(target, heard, end), end))
    return sorted(found, key=lambda each: each.worse)


def _best(found: Sequence[Candidate]) -> float:
    """How well the best of them fits; counts of the topic, which have no subject, come last."""
    named = next((each.worse for each in found if each.target.names), None)
    return named if named is not None else found[0].worse if found else 0.0


def _supported(found: Sequence[Candidate]) -> Candidate | None:
    """The best of those that are said rightly, of facts that may be meant."""
    best = _best(found)
    fitting = (each for each in found if each.worse <= best + ALIKE)
    return next((each for each in fitting if each.how == "right" and each.way), None)


def _stale(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known, own: Sequence[Candidate]
) -> Target | None:
    """What an earlier edition said, where it is said finely enough not to be so by chance."""
    found = _supported(_candidates(heard, carried, known.earlier_in(heard.unit)))
    if found is None or heard.said.step > STALE * abs(heard.said.value):
        return None
    return found.target if not own or found.worse <= own[0].worse + ALIKE else None


def _right_but_for_way(found: Sequence[Candidate]) -> Candidate | None:
    best = _best(found)
    wrong = [each for each in found if each.how == "right" and not each.way]
    return next((each for each in wrong if each.worse <= best + CLOSE), None)


def _swapped(found: Sequence[Candidate], heard: Heard, known: Known) -> Target | None:
    """The level of one of two groups where the other's is right: 'inland' for 'at the coast'."""
    best = _best(found)
    for each in found:
        mine = each.target
        if each.worse > best + CLOSE or mine.side is None or mine.role != "level":
            continue
        for other in known.targets_in(mine.unit):
            if other.finding is mine.finding and other.side == 1 - mine.side:
                if other.role == "level" and how_said(other, heard)[0] == "right":
                    return mine
    return None


def _wrong_unit(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known, own: Sequence[Candidate]
) -> Judged | None:
    """The value of a fact that is counted in another unit, which is said with this one."""
    if not heard.own_unit or heard.unit is None:
        return None
    best = _best(own) if own else 2.0
    for unit in [other for taken, other in _TAKEN_FOR if taken == heard.unit]:
        others = _candidates(heard, carried, known.targets_in(unit))
        fitting = [each for each in others if each.worse <= best + CLOSE and _is_close(each, heard)]
        if fitting:
            return Judged("wrong unit", fitting[0].target)
    return None


def _is_close(each: Candidate, heard: Heard) -> bool:
    """Said rightly, and finely enough not to be so by chance."""
    if each.how != "right" or (each.target.role == "level" and heard.way and heard.leads == "by"):
        return False
    if each.target.role == "level" and heard.unit == POINTS and heard.way:
        return False
    fine = heard.said.step <= 0.11 or {heard.unit, each.target.unit} == {PER_CENT, POINTS}
    return fine or _distance(each.target, heard.said) <= FINE


def _counted(heard: Heard, known: Known) -> Target | None:
    """A count whose noun is left out: 'thirty more played'."""
    bare = heard.unit is None and not set(heard.names) - {WINDOW}
    listed = "players" in heard.units or bare
    if not listed or heard.own_unit or not heard.said.whole or heard.said.value <= SMALL:
        return None
    exact = (each for each in known.targets_in("players"))
    return next((each for each in exact if each.value == heard.said.value), None)


def _off(
    heard: Heard, carried: Mapping[str, Set[str]], own: Sequence[Candidate], known: Known
) -> Judged:
    """No fact says it: near one, other than one, of nothing that a fact is about."""
    if count := _counted(heard, known):
        return Judged("supported", count)
    named = {cut for cut, told in heard.names.items() if told.level < LATER} - {WINDOW, EVENT}
    if not own:
        return Judged("unsupported" if named or heard.own_unit else "for a person")
    best = _best(own)
    meant = [each for each in own if each.worse <= best + CLOSE]
    if heard.said.value < MANY:
        meant = [each for each in meant if each.target.names] or meant
    if (
        not named
        and not carried
        and not any(_is_told(heard, each.target) for each in meant)
        and heard.said.value < MANY
    ):
        return Judged("for a person")
    near = [each for each in meant if each.how == "near" and each.way]
    if near:
        closest = min(near, key=lambda each: _distance(each.target, heard.said))
        return Judged("rounded too far", closest.target)
    closest = min(
        meant,
        key=lambda each: (
            not each.way,
            each.worse > best + 0.3,
            _distance(each.target, heard.said),
        ),
    )
    if best > 2.2:
        return Judged("unsupported" if named else "for a person", closest.target)
    return Judged("contradicted", closest.target)


def _distance(target: Target, said: Said) -> float:
    exact = abs(target.value)
    return abs(abs(said.value) - exact) / (exact or 1.0)
