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
    distance,
    right_but_for_way,
    supported,
)
from pipeline.said.counted_in import meant, of_its_share
from pipeline.said.judgement import Judged
from pipeline.said.no_statistic import SMALL
from pipeline.said.number_heard import Heard
from pipeline.said.other_units import any_unit, wrong_unit
from pipeline.said.subjects import CLAUSE
from pipeline.said.swapped import is_of_the_other, of_the_other_group, swapped
from pipeline.said.targets import EVENT, MOVES, NO_GROUPS, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.said.unsaid import is_told, off

_WRONG = ("contradicted", "rounded too far", "wrong unit", "wrong direction")
STALE = 0.25  # of its value: how coarse a number may be, to be known as an earlier edition's
FINE = 0.05  # the same of one that is not near to it


def judged(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Judged:
    """`carried` are the names of the sentences before and of the heading.

    What they alone make of a number contradicts nothing: it may be of something else. Nor does
    anything contradict a number of 'him' where nobody was named.
    """
    carried = of_its_share(heard, carried)
    found = _held(heard, carried, known)
    if heard.of_somebody and found.result in _WRONG and not set(carried) - NO_GROUPS:
        return Judged("for a person", found.target)
    if found.result != "contradicted":
        return found
    if found.target is None or found.target.fact is None:
        return Judged("unsupported", found.target)
    linked = heard.goes_on or heard.every_one
    alone = carried and not linked and not set(heard.names) - {EVENT, "season"}
    if alone or (carried and _held(heard, {}, known).result == "supported"):
        return Judged("for a person", found.target)
    return found


def _held(heard: Heard, carried: Mapping[str, Set[str]], known: Known) -> Judged:
    few = heard.said.whole and heard.said.value <= SMALL
    of_seasons = "seasons" in heard.units and not heard.own_unit and few
    if heard.plain or heard.withdrawn or (of_seasons and heard.unit in (None, "seasons")):
        return Judged("not a statistic")
    if heard.said.form == "score" or heard.money:
        return Judged("unsupported")
    spoken = heard
    heard = without_later(as_said(heard), carried)
    heard, own = meant(heard, carried, known)
    if not supported(own) and (alone := of_its_clause(heard)):
        told = meant(alone, carried, known)
        measured = alone.names.get("measure")
        takes = not own or (measured and measured.level == CLAUSE and supported(told[1]))
        heard, own = told if takes else (heard, own)
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
    if turned and not (set(heard.names) - {WINDOW, EVENT} or carried or is_told(heard, turned)):
        return Judged("unsupported" if heard.of_something else "for a person")
    if turned:
        return Judged("wrong direction", turned)
    if stale := _stale(heard, carried, known, own):
        return Judged("stale", stale)
    if other := _in_another_unit(spoken, heard, carried, known, own):
        return Judged("wrong unit", other)
    if group := of_the_other_group(own, heard, known):
        return Judged("wrong direction", group)
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
        found = wrong_unit(spoken, carried, known, own)
    return found or any_unit(spoken, carried, known, own)


def _stale(
    heard: Heard, carried: Mapping[str, Set[str]], known: Known, own: Sequence[Candidate]
) -> Target | None:
    """What an earlier edition said, where it is said finely enough not to be so by chance."""
    found = supported(candidates(heard, carried, known.earlier_in(heard.unit)))
    if found is None and not heard.own_unit and heard.said.step <= FINE * abs(heard.said.value):
        found = supported(candidates(replace(heard, unit=None), carried, known.earlier_in(None)))
    if found is None or heard.said.step > STALE * abs(heard.said.value):
        return None
    old = found.target
    if heard.said.step > FINE * abs(old.value) and distance(old, heard.said) > FINE:
        return None
    if found.target.names and not (carried or set(heard.names) - {WINDOW, EVENT}):
        return None
    return found.target if not own or found.worse <= own[0].worse + ALIKE else None
