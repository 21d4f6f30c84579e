"""Which finding a clause that tells of a change is about: by its names, and by its numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

from pipeline.contracts.finding import Finding
from pipeline.contracts.script_check import NumberChecked
from pipeline.said.meant import names_in, told_of
from pipeline.said.sentence_clauses import names_of, with_asides
from pipeline.said.sounded import Sounded
from pipeline.said.targets import CONTROL, EVENT, WINDOW
from pipeline.said.topic_known import Known

_OPEN = "can't tell"
_RUNS = frozenset(("run_rate", "economy"))
_MEANT = {"supported", "rounded too far", "wrong direction", "stale"}  # by its very number
_HOW_FAR = {"difference", "change", "felt"}  # how ids of such facts end


def cant_be_told(found: Sequence[Finding]) -> bool:
    """Whether all that a clause may be about can't be told."""
    return bool(found) and all(finding.verdict == _OPEN for finding in found)


def changes_of(
    heard: Sounded,
    clause: tuple[int, int],
    carried: Mapping[str, Set[str]],
    known: Known,
    numbers: Sequence[NumberChecked],
) -> list[Finding]:
    """Those that fit the names; of several the one that the clause's last number is of."""
    names = _as_measured(names_of(heard, *clause), known)
    found = told_of(names, carried, known)
    if cant_be_told(found) or not set(names) - {WINDOW}:
        return found
    by_number = _of_numbers(heard, clause[0], names, known, numbers)
    if by_number and (not found or by_number in found):
        return [by_number]
    return found or _with_fewer(names, own_names(heard, *clause), carried, known)


def _as_measured(names: dict[str, Set[str]], known: Known) -> dict[str, Set[str]]:
    """Runs scored are runs conceded, where the topic has but the one measure."""
    told = names.get("measure", frozenset())
    if not told & _RUNS or told & {finding.measure for finding in known.findings}:
        return names
    return {**names, "measure": _RUNS}


def own_names(heard: Sounded, begins: int, ends: int) -> dict[str, Set[str]]:
    """What a clause names itself; a season is no name of a change."""
    every = [each for each in heard.mentions if each.cut != "season"]
    return names_in(every, begins, ends)


def _with_fewer(
    names: Mapping[str, Set[str]],
    own: Mapping[str, Set[str]],
    carried: Mapping[str, Set[str]],
    known: Known,
) -> list[Finding]:
    """Without one of the names from before the clause, or by its own alone.

    'The run rate fell, and pace in the powerplay crept up': pace has no run rate.
    """
    if not set(own) - {WINDOW, EVENT, CONTROL}:
        return []
    fewer: list[Mapping[str, Set[str]]] = [
        {each: values for each, values in names.items() if each != cut}
        for cut in sorted(set(names) - set(own) - {WINDOW})
    ]
    told = (told_of(each, carried, known) for each in [*fewer, own])
    return next(filter(None, told), [])


def _of_numbers(
    heard: Sounded,
    begins: int,
    names: Mapping[str, Set[str]],
    known: Known,
    numbers: Sequence[NumberChecked],
) -> Finding | None:
    """Of the clause with its asides: 'it sped up, to 4.58' is of what came to 4.58."""
    first, last = with_asides(heard, begins)
    here = [known.found_by.get(each.fact or "") for each in numbers if first <= each.begins < last]
    of: Finding | None = next((each for each in reversed(here) if each), None)
    if not of or of.verdict != _OPEN or of.measure not in names.get("measure", {of.measure}):
        return None
    return of


def tells_a_change(begins: int, ends: int, known: Known, numbers: Sequence[NumberChecked]) -> bool:
    """Whether a number between two characters is of how far something moved, in whatever words."""
    here = [each for each in numbers if begins <= each.begins < ends]
    facts = [each.fact or "" for each in here if each.result in _MEANT]
    return any(fact in known.found_by and fact.rpartition(".")[2] in _HOW_FAR for fact in facts)
