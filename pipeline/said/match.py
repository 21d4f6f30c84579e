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
from pipeline.said.number_heard import Heard
from pipeline.said.other_units import wrong_unit
from pipeline.said.plain_words import SMALL
from pipeline.said.swapped import is_of_the_other, swapped
from pipeline.said.targets import EVENT, MOVES, ONLY_NAMED, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.units import COUNTED
from pipeline.said.unsaid import is_told, off

STALE = 0.05  # of its value: how coarse a number may be, to be known as an earlier edition's


def judged(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Judged:
    """`carried` are the names of the sentences before and of the heading."""
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
    waits = heard.unit == "balls" and heard.own_unit and not heard.way
    counted = heard.unit in COUNTED or heard.leads == "by"
    if counted or (heard.own_unit and not waits) or heard.said.form != "number" or supported(own):
        return heard, own
    for other in _other_units(heard, carried):
        levels = [each for each in known.targets_in(other, named) if each.role == "level"]
        more = candidates(heard, carried, levels)
        if supported(more):
            return replace(heard, unit=other), more
    return heard, own


def _other_units(heard: Heard, carried: Mapping[str, Set[str]]) -> list[str | None]:
    """Where a number has none of its own: what others of the sentence are counted in, or any."""
    if heard.own_unit:
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
