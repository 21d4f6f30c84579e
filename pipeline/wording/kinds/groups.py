"""groups: two groups compared with no event, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.text import capitalised
from pipeline.voice.sentence import Told
from pipeline.wording import numbers
from pipeline.wording.change import GROUPS, sureness
from pipeline.wording.heading_words import divided_too, linked, side_names
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.labels import value_label
from pipeline.wording.on_the_field import felt_said
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of
from pipeline.wording.subject import group_said, subject, two_groups
from pipeline.wording.temptations import Rank, Temptation
from pipeline.wording.values import unit_said, values_said

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.contracts.timing import Timing


class Groups(KindWords):
    """One side is not before the other: nothing rises, and there is no drift."""

    stood_still = "is much the same in both"

    def said(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> list[str]:
        what = subject(finding, beat, measure, form)
        where = _where(finding, beat, measure, form)
        if finding.refused:
            return [refused_said(what, finding, where)]
        felt = felt_said(finding, measure, form)
        number = _number(what, finding, where, measure)
        return [number, *([felt] if felt else []), *sureness(finding, GROUPS, where[1])]

    def in_short(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        what, change = capitalised(subject(finding, beat, measure, form)), change_of(finding)
        higher = "higher" if finding.told.difference.value > 0 else "lower"
        return f"{what} is {change.said()} {higher} {_where(finding, beat, measure, form)[1]}."

    def open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        what = self.measured(finding, beat, measure, form)
        return f"{what} is any different {_where(finding, beat, measure, form)[1]}"

    def change_named(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        what = subject(finding, beat, measure, form)
        return f"the difference in {what} {_where(finding, beat, measure, form)[1]}"

    def side_named(
        self,
        finding: Finding,
        at: int,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        return f"{subject(finding, beat, measure, form)} {_where(finding, beat, measure, form)[at]}"

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        if any(finding.verdict == "changed" for finding in mine):
            line = "“Because they are different.” Other things differ between the groups too."
            yield Temptation(Rank.PARTS, line)

    def sides(self, finding: Finding, beat: AnyKind, form: Format) -> tuple[str, str]:
        cut, _, _ = two_groups(beat)
        first, second = finding.sides
        return value_label(cut, first, form), value_label(cut, second, form)

    def heading(self, what: str, beat: AnyKind, form: Format) -> list[str]:
        first, second = side_names(beat, form)
        asked = f"{what}, {linked(second, 'against', first)}"
        return [*divided_too([asked], beat), asked]

    def compared(self, beat: AnyKind, timing: Timing, blind: bool) -> str:
        return ""


def _number(what: str, finding: Finding, where: tuple[str, str], measure: Measure) -> str:
    a, b = values_said(finding, measure)
    said = {"what": what, "here": where[0], "there": where[1]}
    said["first"] = numbers.with_unit(a, unit_said(measure))
    if finding.verdict != "held":
        return Told("groups.number", second=b, **said)
    return Told("groups.held.same", **said) if a == b else Told("groups.held", second=b, **said)


def _where(finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> tuple[str, str]:
    """The two groups at the end of a clause: 'at coast grounds'."""
    first, second = finding.sides
    return group_said(beat, first, measure, form), group_said(beat, second, measure, form)


WORDS = Groups()
