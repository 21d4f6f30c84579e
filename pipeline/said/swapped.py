"""Two groups of a finding: the number of the one that is said of the other."""

from __future__ import annotations

from collections.abc import Sequence, Set

from pipeline.said.candidates import CLOSE, Candidate, best_of
from pipeline.said.number_heard import Heard
from pipeline.said.saying import how_said, way_fits
from pipeline.said.subjects import CLAUSE, EARLIER, MEASURE
from pipeline.said.targets import ONLY_NAMED, OVERS, SHARE, WINDOW, Target
from pipeline.said.topic_known import Known

FINE = 0.1  # of its value: how coarse a number may be, to be known as the other group's
FINER = 0.05  # the same where it is of another finding
FINEST = 0.02  # the same where it is of another stretch of the innings


def swapped(found: Sequence[Candidate], heard: Heard, known: Known) -> tuple[Target, Target] | None:
    """The level of one of two groups where the other's is right: 'inland' for 'at the coast'."""
    if heard.said.step > FINE * abs(heard.said.value):
        return None
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


def is_of_the_other(heard: Heard, mine: Target, other: Target) -> bool:
    """'Left-handers score 76.7 against 75.9': the group is named with the first number only."""
    cuts = [cut for cut, value in mine.names.items() if other.names.get(cut) != value]
    levels = {EARLIER, CLAUSE} if heard.leads == "to" else {EARLIER}
    return all(cut in heard.names and heard.names[cut].level in levels for cut in cuts)


def of_the_other_group(found: Sequence[Candidate], heard: Heard, known: Known) -> Target | None:
    """A fact of which the number is the other group's: 'pace 4.09, spin 4.73' of the two swapped.

    The finding of that group is another one, so the number has to be the printed one.
    """
    if not found or heard.said.step > FINER * abs(heard.said.value):
        return None
    printed: dict[str, list[Target]] = {}
    best = best_of(found)
    for each in found:
        mine = each.target
        if each.worse > best + CLOSE or mine.role not in ("level", "move", "felt"):
            continue
        fine = heard.said.step <= FINEST * abs(heard.said.value)
        cuts = _groups(mine) | ({OVERS} & mine.names.keys() if fine else set())
        if not any(cut in heard.names for cut in cuts):
            continue
        if mine.unit not in printed:
            every = known.targets_in(mine.unit)
            printed[mine.unit] = [other for other in every if _is_printed(other, heard)]
        if any(_says(other, mine, heard, cuts) for other in printed[mine.unit]):
            return mine
    return None


def _says(other: Target, mine: Target, heard: Heard, cuts: Set[str]) -> bool:
    return _is_beside(mine, other, cuts) and way_fits(other, heard, None)


def _groups(target: Target) -> set[str]:
    return set(target.names) - {"measure", OVERS, WINDOW, *ONLY_NAMED}


def _is_beside(mine: Target, other: Target, cuts: Set[str]) -> bool:
    """Whether they are the same of two groups, by one of the `cuts`, of one beat."""
    if (mine.role, mine.side) != (other.role, other.side):
        return False
    of_balls = _is_of_the_balls(mine) and _is_of_the_balls(other)
    found = mine.finding, other.finding
    beats = {each.beat for each in found if each}
    if mine.names.keys() != other.names.keys() or not (
        of_balls or (all(found) and len(beats) == 1)
    ):
        return False
    apart = [cut for cut, value in mine.names.items() if other.names[cut] != value]
    apart = [cut for cut in apart if not (of_balls and cut == MEASURE)]
    return len(apart) == 1 and apart[0] in cuts


def _is_of_the_balls(target: Target) -> bool:
    """A share of the balls: what is left of it is the other group's, of which no finding is."""
    measure = target.names.get(MEASURE, "")
    return measure == SHARE or measure.endswith("-share")


def _is_printed(target: Target, heard: Heard) -> bool:
    return abs(abs(target.value) - abs(heard.said.value)) <= heard.said.step / 2 + 1e-9
