"""streaks: what came running, and against what its rate alone would make, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.text import capitalised
from pipeline.wording.change import (
    CHANGE,
    among_many,
    change_said,
    margin_said,
    rose_or_fell,
    sureness,
)
from pipeline.wording.control import control_said
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of
from pipeline.wording.second_verdict import drift_said
from pipeline.wording.subject import subject
from pipeline.wording.temptations import Rank, Temptation, rows_judged_apart
from pipeline.wording.values import values_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import NamedEvent


class StreakWords(KindWords):
    """Runs an innings are a change like any; those for each one expected are of their order."""

    def said(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> list[str]:
        if not _of_the_order(measure):
            return change_said(finding, beat, measure, form)
        if finding.refused:
            return [refused_said(capitalised(subject(finding, beat, measure, form)), finding)]
        lines = [*_order_said(finding, measure), drift_said(finding), control_said(finding)]
        return [line for line in lines if line]

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        line = "“They panicked.” Balls in a row hold no intent; say how often they came."
        yield Temptation(Rank.CAUSE, line)
        line = "“One brings the next.” Bowlers, batters and fields with rates of their own do, too."
        yield Temptation(Rank.ORDER, line)
        yield from rows_judged_apart(mine)


WORDS = StreakWords()


def _of_the_order(measure: Measure) -> bool:
    """Whether it holds runs against what their rate would make, which leaves only their order."""
    return "streak_expected" in measure.denominator


def _order_said(finding: Finding, measure: Measure) -> list[str]:
    """What their rate makes of itself, then whether they gathered more or less than that."""
    a, b = values_said(finding, measure)
    start = "Put the same balls in any order, phase by phase, and some runs come anyway."
    if finding.verdict == "held":
        still = f"They gather as they did: {a} for each of those then, {b} after."
        if a == b:
            still = f"They gather as they did: {a} for each of those."
        return [start, still, f"If that moved, it is under {margin_said(finding)}."]
    both = f"For each of those, {a} came before, and {b} after."
    if finding.verdict == "changed":
        more = "more" if rose_or_fell(finding) == "rose" else "less"
        return [start, both, f"So they gather {more} than they did: {change_of(finding).reach()}."]
    if finding.because == "lost_among_many":
        return [start, both, f"{among_many(finding)} Anything {change_of(finding).reach()} fits."]
    return [start, both, *sureness(finding, CHANGE)]
