"""One number held against the facts: which of them it says, and how rightly."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace

from pipeline.contracts.script_check import Result
from pipeline.said.as_counted import as_said, of_its_clause, without_later
from pipeline.said.candidates import (
    AHEAD,
    ALIKE,
    Candidate,
    candidates,
    right_but_for_way,
    supported,
)
from pipeline.said.judgement import Judged
from pipeline.said.no_statistic import SMALL
from pipeline.said.number_heard import Heard
from pipeline.said.other_units import wrong_unit
from pipeline.said.swapped import is_of_the_other, swapped
from pipeline.said.targets import EVENT, MOVES, ONLY_NAMED, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import COUNTED, PER_CENT, POINTS
from pipeline.said.unsaid import is_told, off

STALE = 0.05  # of its value: how coarse a number may be, to be known as an earlier edition's


def judged(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Judged:
    """`carried` are the names of the sentences before and of the heading.

    What they alone make of a number contradicts nothing: it may be of something else.
    """
    carried = _of_its_share(heard, carried)
    found = _held(heard, carried, known)
    if found.result != "contradicted":
        return found
    if found.target is None or found.target.fact is None:
        return Judged("unsupported", found.target)
    linked = heard.goes_on or heard.every_one
    alone = carried and not linked and not set(heard.names) - {EVENT, "season"}
    if alone or (carried and _held(heard, {}, known).result == "supported"):
        return Judged("for a person", found.target)
    return found


def all_judged(
    told: Sequence[Heard], carried: Mapping[str, Set[str]], known: Known
) -> list[Judged]:
    """Every number of a sentence: of what it names itself, where all of them are right of that."""
    found = [judged(each, carried, known) for each in told]
    open_yet = [each.result not in ("supported", "not a statistic") for each in found]
    named = all(set(each.names) - {WINDOW, EVENT} for each in told)
    if carried and named and any(open_yet) and len(told) > 1:
        without = [judged(each, {}, known) for each in told]
        right = [each.result == "supported" for each in without]
        if all(right):
            return without
    return found


def _of_its_share(heard: Heard, carried: Mapping[str, Set[str]]) -> Mapping[str, Set[str]]:
    """'Spin now bowls eight points more': of its share, whatever was measured before."""
    bowls = heard.unit in (PER_CENT, POINTS) or heard.said.form in ("share", "odds")
    if bowls and "share" in heard.parts and "measure" not in heard.names:
        return {cut: told for cut, told in carried.items() if cut != "measure"}
    return carried


def _held(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Judged:
    of_seasons = "seasons" in heard.units and not heard.own_unit and heard.said.value <= SMALL
    if heard.plain or heard.withdrawn or (of_seasons and heard.unit in (None, "seasons")):
        return Judged("not a statistic")
    if heard.said.form == "score":
        return Judged("unsupported")
    spoken = heard
    heard = without_later(as_said(heard), carried)
    heard, own = _meant(heard, carried, known)
    if not own and (alone := of_its_clause(heard)):
        heard, own = _meant(alone, carried, known)
    if heard.every_one and heard.unit == "ways":
        own = [each for each in own if each.target.fact]
    found, other_way = supported(own), right_but_for_way(own)
    if found and other_way and other_way.worse + AHEAD < found.worse:
        found = None
    if found:
        clear = set(heard.names) - {WINDOW, EVENT} or carried or is_told(heard, found.target)
        unclear: Result = "unsupported" if heard.of_something else "for a person"
        return Judged("supported" if clear else unclear, found.target, found.end)
    across = swapped(own, heard, known)
    if across and heard.set_against and not other_way and is_of_the_other(heard, *across):
        return Judged("supported", across[1])
    turned = other_way.target if other_way else across[0] if across else None
    if turned and not heard.names.keys() & {"measure"} and "share" not in heard.all_parts:
        other = _in_another_unit(spoken, heard, carried, known, own)
        if (
            other
            and other.role in MOVES
            and heard.own_unit
            and _is_share(turned) > _is_share(other)
        ):
            return Judged("wrong unit", other)
    if turned:
        return Judged("wrong direction", turned)
    if stale := _stale(heard, carried, known, own):
        return Judged("stale", stale)
    if other := _in_another_unit(spoken, heard, carried, known, own):
        return Judged("wrong unit", other)
    return off(heard, carried, own, known)


def _is_share(target: Target) -> bool:
    return target.finding is not None and target.finding.kind == "share"


def _in_another_unit(
    spoken: Heard, heard: Heard, carried: Mapping[str, Set[str]], known: Known,
    own: Sequence[Candidate],
) -> Target | None:  # fmt: skip
    """As it is said, and as it is counted: overs are six balls each."""
    found = wrong_unit(heard, carried, known, own)
    if found is None and spoken.unit == "overs" and spoken.said.form == "number":
        return wrong_unit(spoken, carried, known, own)
    return found


def _meant(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known
) -> tuple[Heard, list[Candidate]]:
    """What it may say in its own unit; of a level that has none, in another of the sentence."""
    named = not ONLY_NAMED.isdisjoint(heard.names) or not ONLY_NAMED.isdisjoint(carried)
    own = candidates(heard, carried, known.targets_in(heard.unit, named))
    in_overs = heard.said.form == "overs"
    waits = heard.unit == "balls" and (heard.own_unit or in_overs) and not heard.way
    counted = heard.unit in COUNTED or heard.leads == "by"
    other_form = heard.said.form != "number" and not in_overs
    if counted or (heard.own_unit and not waits) or other_form or supported(own):
        return heard, own
    for other in _other_units(heard, carried):
        levels = [each for each in known.targets_in(other, named) if each.role == "level"]
        more = candidates(heard, carried, levels)
        if supported(more):
            return replace(heard, unit=other), more
    return heard, own


def _other_units(heard: Heard, carried: Mapping[str, Set[str]]) -> list[str | None]:
    """Where a number has none of its own: what others of the sentence are counted in, or any."""
    if heard.own_unit or heard.said.form == "overs":
        return ["balls a wicket"]  # 'forty-six balls', of what a wicket takes
    others: list[str | None] = [*sorted(heard.units - {heard.unit})]
    return [*others, None] if heard.names or carried else others


def _stale(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known, own: Sequence[Candidate]
) -> Target | None:
    """What an earlier edition said, where it is said finely enough not to be so by chance."""
    found = supported(candidates(heard, carried, known.earlier_in(heard.unit)))
    if found is None or heard.said.step > STALE * abs(heard.said.value):
        return None
    if found.target.names and not (carried or set(heard.names) - {WINDOW, EVENT}):
        return None
    return found.target if not own or found.worse <= own[0].worse + ALIKE else None
