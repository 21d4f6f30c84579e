"""Which findings a clause is about, by the names in it and before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

from pipeline.contracts.finding import Finding
from pipeline.said.targets import CONTROL, EVENT, ONLY_NAMED, WHEN, WHOLE, WINDOW, Target
from pipeline.said.terms import Mention
from pipeline.said.topic_known import Known

NEAR = 0.5


def meant(
    names: Mapping[str, Set[str]], carried: Mapping[str, Set[str]], known: Known
) -> list[Finding]:
    """Those that fit best; none where the clause is about something else."""
    found: list[tuple[float, Finding]] = []
    for target in known.changes:
        worse = _worse(target, names, carried)
        if worse is not None and target.finding:
            found.append((worse, target.finding))
    best = min((worse for worse, _ in found), default=0.0)
    return [finding for worse, finding in found if worse <= best + NEAR] if best < 3 else []


def told_of(
    names: Mapping[str, Set[str]], carried: Mapping[str, Set[str]], known: Known
) -> list[Finding]:
    """Those that a statement is about: of two groups only where one of them is named."""
    if not {*names, *carried} - WHEN - {CONTROL}:
        return []
    found = meant({cut: told for cut, told in names.items() if cut != "season"}, carried, known)
    between = {each.finding.id: each.between for each in known.changes if each.finding}
    told = {*names, *carried}
    named = [each for each in found if not between[each.id] or between[each.id] in told]
    return named or found


def _worse(
    target: Target, names: Mapping[str, Set[str]], carried: Mapping[str, Set[str]]
) -> float | None:
    worse = 0.0
    for cut, values in names.items():
        if (
            cut not in (WINDOW, CONTROL, EVENT, "season", target.between)
            and target.names.get(cut, WHOLE) not in values
        ):
            return None
    for cut, value in target.names.items():
        if cut in names:
            continue
        if cut in carried and value in carried[cut]:
            worse += 0.1
        elif cut in ONLY_NAMED or (cut in carried and not names):
            return None
        elif cut == "measure":
            worse += 0.3
        else:
            worse += 0.8 if target.fact and target.fact.headline else 1.3
    return worse + sum(0.6 for cut in carried if cut not in names and cut not in target.names)


def names_in(mentions: Sequence[Mention], begins: int, ends: int) -> dict[str, Set[str]]:
    """By cut what stands between two tokens."""
    found: dict[str, Set[str]] = {}
    for each in mentions:
        if begins <= each.begins < ends:
            found[each.cut] = found.get(each.cut, set()) | each.values
    return found
