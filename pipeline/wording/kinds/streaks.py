"""streaks: what came in a row, and against what its rate alone would make, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.voice.sentence import Told
from pipeline.wording.change import CHANGE, change_said, sureness
from pipeline.wording.control import control_said
from pipeline.wording.heading_words import divided_too, filtered
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of, rose_or_fell
from pipeline.wording.second_verdict import drift_said
from pipeline.wording.subject import subject, where_said
from pipeline.wording.temptations import Rank, Temptation, rows_judged_apart
from pipeline.wording.values import values_said

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.contracts.findings import PlayersList


EACH = "for each that luck alone would make"


class StreakWords(KindWords):
    """Streaks an innings are a change like any; those for each one expected are of their order."""

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
        what = subject(finding, beat, measure, form)
        if finding.refused:
            return [refused_said(what, finding)]
        lines = [*_order_said(what, finding, measure), *drift_said(finding), *control_said(finding)]
        return [line for line in lines if line]

    def headings(
        self, beat: AnyKind, measures: Mapping[str, Measure], form: Format
    ) -> list[list[str]]:
        """'Six or more dot balls in a row in the middle overs'."""
        what = measures[beat.measures[0]].label.removeprefix("count of ")
        asked = dict.fromkeys(f"{what}{where_said(less, form)}" for less in filtered(beat))
        return [[*divided_too([each], beat), each] for each in asked]

    def opening(
        self, own: Sequence[Finding], beat: AnyKind, form: Format, listed: PlayersList | None
    ) -> list[str]:
        """What their rate makes by itself, once for all the rows that are held against it."""
        told = any(not finding.refused for finding in own)
        if not told or not _of_the_order(beat.makes[own[0].measure]):
            return []
        return [Told("streaks.luck")]

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


def _order_said(what: str, finding: Finding, measure: Measure) -> list[str]:
    """Whether they gather more or less than their rate alone would make them."""
    a, b = values_said(finding, measure)
    said = {"what": what, "first": a, "each": EACH}
    if finding.verdict == "held":
        same = Told("streaks.held.same", **said)
        held = same if a == b else Told("streaks.held", second=b, **said)
        return [held, *sureness(finding, CHANGE)]
    same = Told("streaks.number.same", **said)
    both = same if a == b else Told("streaks.number", second=b, **said)
    if finding.verdict == "changed":
        more = "more" if rose_or_fell(finding) == "rose" else "less"
        return [both, Told("streaks.gather", more=more, reach=change_of(finding).reach())]
    return [both, *sureness(finding, CHANGE)]
