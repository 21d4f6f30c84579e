"""A number that no fact of its clause says, against what its whole sentence names.

Who is meant by a number is heard from the words that stand near it, which may be another's. Where
a fact of the names of the same sentence has the very value, it is that one that is said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace

from pipeline.said.candidates import distance
from pipeline.said.fitting import fit
from pipeline.said.number_heard import Heard
from pipeline.said.saying import how_said, way_fits
from pipeline.said.subjects import CLAUSE, LATER, Named
from pipeline.said.targets import ONLY_NAMED, WHEN, WHOLE, WINDOW, Target
from pipeline.said.topic_known import Known

FINE = 0.1  # of its value: how coarsely a number may be said, not to be a fact's by chance
NEAR = 0.02  # of a fact's value: how far off it may be
WORST = 1.0  # how badly a fact may fit by its part: a level, a change, a drift


def looked_again(
    heard: Heard, told: Sequence[Heard], carried: Mapping[str, Set[str]], known: Known
) -> Target | None:
    """`told` are all numbers of the sentence; what any of them is of, this one may be of."""
    if heard.said.step > FINE * abs(heard.said.value):
        return None
    every: dict[str, Set[str]] = {}
    for each in told:
        for cut, named in each.names.items():
            every[cut] = {*every.get(cut, set()), *named.values}
    fitting = [
        (worse, target)
        for target in known.targets_in(heard.unit, not ONLY_NAMED.isdisjoint(every))
        if (worse := _fits(target, heard, every, carried)) is not None
    ]
    return min(fitting, key=lambda each: each[0])[1] if fitting else None


def _fits(
    target: Target, heard: Heard, every: Mapping[str, Set[str]], carried: Mapping[str, Set[str]]
) -> float | None:
    if not target.names or distance(target, heard.said) > NEAR:
        return None
    for cut, named in heard.names.items():
        own = target.allowed.get(cut, frozenset())
        if cut in WHEN or named.level == LATER or WHOLE in named.values:
            continue
        if own.isdisjoint(named.values) and (named.level == CLAUSE or cut not in target.names):
            return None  # of spin, whose own clause it is not, and never of all bowlers
    if not any(cut in every for cut in target.names if cut not in WHEN):
        return None
    for cut, value in target.names.items():
        if cut in (WINDOW, "~ways", "mix", "gap", "turn", target.between):
            continue
        if value not in every.get(cut, carried.get(cut, {value} if cut == "measure" else ())):
            return None
    names = {
        cut: Named(frozenset({value}), CLAUSE)
        for cut, value in target.names.items()
        if cut in every and cut != WINDOW
    }
    again = replace(heard, names=names)
    worse = fit(target, again, {})
    how, end = how_said(target, again)
    right = how == "right" and end is None and way_fits(target, again, end)
    return worse if right and worse is not None and worse <= WORST else None
