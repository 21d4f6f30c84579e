"""The facts that a number may be said of, the best first, and how rightly it says each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from typing import NamedTuple

from pipeline.said.fitting import fit
from pipeline.said.number_heard import Heard
from pipeline.said.read_numbers import Said
from pipeline.said.rounding import How
from pipeline.said.saying import how_said, way_fits
from pipeline.said.targets import Target

AHEAD = 0.3  # how much better the fact of another way has to fit, to be the one that is meant
ALIKE = 0.75  # how much worse a fact may fit than the best one, and still be what is meant
CLOSE = 0.65  # the same where the value is another one


class Candidate(NamedTuple):
    worse: float
    target: Target
    how: How
    way: bool
    end: float | None = None


def candidates(
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


def best_of(found: Sequence[Candidate]) -> float:
    """How well the best of them fits; counts of the topic, which have no subject, come last."""
    named = next((each.worse for each in found if each.target.names), None)
    return named if named is not None else found[0].worse if found else 0.0


def supported(found: Sequence[Candidate]) -> Candidate | None:
    """The best of those that are said rightly, of facts that may be meant."""
    best = best_of(found)
    fitting = (each for each in found if each.worse <= best + ALIKE)
    return next((each for each in fitting if each.how == "right" and each.way), None)


def right_but_for_way(found: Sequence[Candidate]) -> Candidate | None:
    best = best_of(found)
    wrong = [each for each in found if each.how == "right" and not each.way]
    return next((each for each in wrong if each.worse <= best + CLOSE), None)


def distance(target: Target, said: Said) -> float:
    exact = abs(target.value)
    return abs(abs(said.value) - exact) / (exact or 1.0)
