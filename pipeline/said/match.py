"""One number held against the facts: which of them it says, and how rightly."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace
from typing import NamedTuple

from pipeline.contracts.script_check import Result
from pipeline.said.candidates import (
    ALIKE,
    CLOSE,
    Candidate,
    best_of,
    candidates,
    distance,
    right_but_for_way,
    supported,
)
from pipeline.said.number_heard import Heard
from pipeline.said.other_units import wrong_unit
from pipeline.said.plain_numbers import SMALL
from pipeline.said.saying import how_said
from pipeline.said.subjects import EARLIER, LATER
from pipeline.said.targets import EVENT, MOVES, ONLY_NAMED, OVERS, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import A_BOUNDARY, COUNTED, PER_CENT

AHEAD = 0.3  # how much better the fact of another way has to fit, to be the one that is meant
OF_ITSELF = 2.6  # how badly a share may fit that is said to move in per cent
FEW = 3  # players: so many are a word
MANY = 1_000  # from here a count of balls or matches is the topic's own
STALE = 0.05  # of its value: how coarse a number may be, to be known as an earlier edition's
# Units that say which measure it is.
FAR = 2.2  # how badly the best of them may fit, to be of the same thing
_TELLING = {"balls a wicket", "runs a wicket", "runs a hundred balls", "matches", "comparisons"}


class Judged(NamedTuple):
    """A result, with the fact it was held against where there is one."""

    result: Result
    target: Target | None = None
    end: float | None = None  # the end of its interval that is said, where it is one


def judged(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Judged:
    """`carried` are the names of the sentences before and of the heading."""
    of_seasons = "seasons" in heard.units and not heard.own_unit and heard.said.value <= SMALL
    if heard.plain or heard.withdrawn or (of_seasons and heard.unit in (None, "seasons")):
        return Judged("not a statistic")
    if heard.said.form == "score":
        return Judged("unsupported")
    spoken = heard
    heard = _without_later(_as_said(heard), carried)
    heard, own = _meant(heard, carried, known)
    if not own and (alone := _of_its_clause(heard)):
        heard, own = _meant(alone, carried, known)
    found, other_way = supported(own), right_but_for_way(own)
    if found and other_way and other_way.worse + AHEAD < found.worse:
        found = None
    if found:
        clear = set(heard.names) - {WINDOW, EVENT} or carried or _is_told(heard, found.target)
        return Judged("supported" if clear else "for a person", found.target, found.end)
    across = _swapped(own, heard, known)
    if across and heard.set_against and not other_way and _is_of_the_other(heard, *across):
        return Judged("supported", across[1])
    turned = other_way.target if other_way else across[0] if across else None
    if turned and not heard.names.keys() & {"measure"} and "share" not in heard.all_parts:
        other = _in_another_unit(spoken, heard, carried, known, own)
        if other and other.role in MOVES and heard.own_unit:
            return Judged("wrong unit", other)
    if turned:
        return Judged("wrong direction", turned)
    if stale := _stale(heard, carried, known, own):
        return Judged("stale", stale)
    if other := _in_another_unit(spoken, heard, carried, known, own):
        return Judged("wrong unit", other)
    return _off(heard, carried, own, known)


def _in_another_unit(
    spoken: Heard, heard: Heard, carried: Mapping[str, Set[str]], known: Known,
    own: Sequence[Candidate],
) -> Target | None:  # fmt: skip
    """As it is said, and as it is counted: overs are six balls each."""
    found = wrong_unit(heard, carried, known, own)
    if found is None and spoken.unit == "overs" and spoken.said.form == "number":
        return wrong_unit(spoken, carried, known, own)
    return found


def _without_later(heard: Heard, carried: Mapping[str, Set[str]]) -> Heard:
    """Names that follow in another clause give way to those of the sentences before."""
    names = {
        cut: told for cut, told in heard.names.items() if told.level < LATER or cut not in carried
    }
    return replace(heard, names=names) if len(names) < len(heard.names) else heard


def _of_its_clause(heard: Heard) -> Heard | None:
    """Without names of an earlier clause, where the number's own names another measure or group."""
    own = {cut: told for cut, told in heard.names.items() if told.level != EARLIER}
    speaks = set(own) - {WINDOW, EVENT, OVERS, "season"}
    return replace(heard, names=own) if speaks and len(own) < len(heard.names) else None


def _meant(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known
) -> tuple[Heard, list[Candidate]]:
    """What it may say in its own unit; of a level that has none, in another of the sentence."""
    named = not ONLY_NAMED.isdisjoint(heard.names) or not ONLY_NAMED.isdisjoint(carried)
    own = candidates(heard, carried, known.targets_in(heard.unit, named))
    waits = heard.unit == "balls" and heard.own_unit and not heard.way
    counted = heard.unit in COUNTED
    if counted or (heard.own_unit and not waits) or heard.said.form != "number" or supported(own):
        return heard, own
    for other in _other_units(heard, carried):
        levels = [each for each in known.targets_in(other, named) if each.role == "level"]
        more = candidates(heard, carried, levels)
        if supported(more):
            return replace(heard, unit=other), more
    return heard, own


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


def _other_units(heard: Heard, carried: Mapping[str, Set[str]]) -> list[str | None]:
    """Where a number has none of its own: what others of the sentence are counted in, or any."""
    if heard.own_unit:
        return ["balls a wicket"]  # 'forty-six balls', of what a wicket takes
    others: list[str | None] = [*sorted(heard.units - {heard.unit})]
    return [*others, None] if heard.names or carried else others


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
    if heard.unit == A_BOUNDARY:
        step = 50 / said.value - 50 / (said.value + 1)
        told = replace(said, value=100 / said.value, step=2 * step, whole=False)
        return replace(heard, said=told, unit=PER_CENT)
    if said.form == "overs" or (heard.unit == "overs" and said.form in ("number", "share")):
        told = replace(said, value=said.value * 6, step=min(said.step * 6, 6))
        return replace(heard, said=told, unit="balls")
    return heard


def _stale(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known, own: Sequence[Candidate]
) -> Target | None:
    """What an earlier edition said, where it is said finely enough not to be so by chance."""
    found = supported(candidates(heard, carried, known.earlier_in(heard.unit)))
    if found is None or heard.said.step > STALE * abs(heard.said.value):
        return None
    return found.target if not own or found.worse <= own[0].worse + ALIKE else None


def _swapped(
    found: Sequence[Candidate], heard: Heard, known: Known
) -> tuple[Target, Target] | None:
    """The level of one of two groups where the other's is right: 'inland' for 'at the coast'."""
    best = best_of(found)
    for each in found:
        mine = each.target
        if each.worse > best + CLOSE or mine.side is None or mine.role != "level":
            continue
        for other in known.sides_of(mine):
            across = other.finding is mine.finding and other.side == 1 - mine.side
            if across and other.role == "level" and how_said(other, heard)[0] == "right":
                return mine, other
    return None


def _is_of_the_other(heard: Heard, mine: Target, other: Target) -> bool:
    """'Left-handers score 76.7 against 75.9': the group is named with the first number only."""
    cuts = [cut for cut, value in mine.names.items() if other.names.get(cut) != value]
    return all(cut in heard.names and heard.names[cut].level == EARLIER for cut in cuts)


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
    near = {cut for cut, told in heard.names.items() if told.level < LATER} - {WINDOW, EVENT}
    named = near or set(heard.names) - {WINDOW, EVENT}
    of_something = named or (heard.of_something and not carried)
    if share := _of_itself(heard, carried, known):
        return Judged("contradicted", share)
    if not own:
        if heard.said.value in known.background and not named:
            return Judged("not a statistic")
        return Judged("unsupported" if of_something or heard.own_unit else "for a person")
    if heard.unit == "players" and heard.said.value <= FEW:
        return Judged("not a statistic")  # 'two bowlers, one question'
    best = best_of(own)
    meant = [each for each in own if each.worse <= best + CLOSE]
    if heard.said.value < MANY or heard.unit not in ("balls", "matches"):
        meant = [each for each in meant if each.target.names] or meant
        told = any(_is_told(heard, each.target) for each in meant)
        if not (named or carried or told):
            return Judged("unsupported" if of_something else "for a person")
    if heard.other_head and "measure" not in heard.names:
        return Judged("unsupported")
    close = [each for each in meant if each.how == "near" and each.way and _is_rounded(each)]
    if close:
        closest = min(close, key=lambda each: distance(each.target, heard.said))
        return Judged("rounded too far", closest.target)
    closest = min(meant, key=lambda each: _unlikely(each, heard, best))
    if best > FAR:
        return Judged("unsupported" if named else "for a person", closest.target)
    if heard.unit == "players" and "listed" not in heard.all_parts and heard.own_unit:
        return Judged("unsupported")  # 'the side used seven bowlers'
    return Judged("contradicted", closest.target)


def _of_itself(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Target | None:
    """The move of a share that is said in per cent of itself: it is told in points."""
    if heard.unit != PER_CENT or not heard.is_move or {"step", "drift"} & heard.all_parts:
        return None
    if "measure" not in heard.names and "share" not in heard.all_parts:
        return None
    found = candidates(heard, carried, known.shares_moved)
    best = next((each for each in found if each.target.role == "move"), None)
    return best.target if best and best.worse <= OF_ITSELF else None


def _is_rounded(each: Candidate) -> bool:
    """Counts that are no facts, of whom a list has, are said as they are or wrongly."""
    return each.target.role != "count" or each.target.fact is not None


def _unlikely(each: Candidate, heard: Heard, best: float) -> tuple[bool, bool, float]:
    """What a number was meant to say: the fact of its side and way, the nearest one."""
    return not each.way, each.worse > best + AHEAD, distance(each.target, heard.said)
