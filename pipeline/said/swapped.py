"""Two groups of a finding: the number of the one that is said of the other."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.said.candidates import CLOSE, Candidate, best_of
from pipeline.said.number_heard import Heard
from pipeline.said.saying import how_said
from pipeline.said.subjects import EARLIER
from pipeline.said.targets import Target
from pipeline.said.topic_known import Known


def swapped(found: Sequence[Candidate], heard: Heard, known: Known) -> tuple[Target, Target] | None:
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


def is_of_the_other(heard: Heard, mine: Target, other: Target) -> bool:
    """'Left-handers score 76.7 against 75.9': the group is named with the first number only."""
    cuts = [cut for cut, value in mine.names.items() if other.names.get(cut) != value]
    return all(cut in heard.names and heard.names[cut].level == EARLIER for cut in cuts)
