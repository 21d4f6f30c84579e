"""What hangs on the kind of a beat in words; here is what most kinds say, a kind says otherwise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, ClassVar

from pipeline.contracts.finding import Finding
from pipeline.text import capitalised
from pipeline.wording import labels, shown_numbers, tested
from pipeline.wording.change import change_said
from pipeline.wording.confidence import one_of_looks
from pipeline.wording.heading_words import divided, whats
from pipeline.wording.refusals import refused_in_short
from pipeline.wording.scales import change_of, rose_or_fell
from pipeline.wording.subject import subject
from pipeline.wording.temptations import Temptation, rows_judged_apart
from pipeline.wording.windows import against

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.contracts.findings import PlayersList
    from pipeline.contracts.timing import Timing


class KindWords:
    """The words of a kind whose findings are changes between the two windows."""

    change_heading: ClassVar[str] = "Change"  # of the column of differences
    extra_heading: ClassVar[str] = "Could see"  # of the column beside the interval
    wide: ClassVar[bool] = False  # whether that column takes more room
    stood_still: ClassVar[str] = "held"  # what follows the subject of a title

    def said(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> list[str]:
        """The sentences of one finding."""
        return change_said(finding, beat, measure, form)

    def in_short(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """A changed finding in one sentence."""
        what = capitalised(subject(finding, beat, measure, form))
        return f"{what} {rose_or_fell(finding)} by {change_of(finding).said()}."

    def stood(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        """A finding that held in one clause: 'spin’s economy held'."""
        return f"{self.measured(finding, beat, measure, form)} {self.stood_still}"

    def open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        """What can't be told of it, after 'whether': 'spin’s economy moved'."""
        return f"{self.measured(finding, beat, measure, form)} moved"

    def named_open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        """The same as a noun, which can stand beside others: 'spin’s economy'."""
        return self.measured(finding, beat, measure, form)

    def found_open(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """What was found where the data can't tell, in one line: both values."""
        what = capitalised(self.measured(finding, beat, measure, form))
        return f"{what}: {self.card(finding, beat, measure, form).sides}."

    def measured(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        """What its number is of."""
        return subject(finding, beat, measure, form)

    def change_named(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        """Its difference as a noun, without the value: 'the change in spin’s economy'."""
        return f"the change in {self.measured(finding, beat, measure, form)}"

    def side_named(
        self,
        finding: Finding,
        at: int,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """One side's value as a noun: 'spin’s economy before the long rope'."""
        when = f"{finding.sides[at]} {event.name}" if event else finding.sides[at]
        return f"{self.measured(finding, beat, measure, form)} {when}"

    def opening(
        self, own: Sequence[Finding], beat: AnyKind, form: Format, listed: PlayersList | None
    ) -> list[str]:
        """What the findings of a measure say as a whole, before any one of them."""
        return []

    def of_list(
        self, own: Sequence[Finding], beat: AnyKind, found: PlayersList | None
    ) -> list[str]:
        """What stands under the rows of a list of players and is not said."""
        return []

    def headings(
        self, beat: AnyKind, measures: Mapping[str, Measure], form: Format
    ) -> list[list[str]]:
        """What a beat without a title may be headed: of all it asks, then of less and less.

        Of each, forms of it, the fullest first.
        """
        return [self.heading(what, beat, form) for what in whats(beat, measures, form)]

    def heading(self, what: str, beat: AnyKind, form: Format) -> list[str]:
        """What the beat asks of `what` ('spin’s economy at the death'), the fullest form first."""
        return [f"{what}, {divided(beat) or 'before and after'}", what]

    def details(self, beat: AnyKind, form: Format) -> list[str]:
        """What else may tell a beat from another that asks nearly the same."""
        return [f"beside {beat.held_against.name}"] if beat.held_against else []

    def may_be_said(self, finding: Finding) -> bool:
        """Whether it is put into words though it is no headline."""
        return True

    def is_told_first(self, finding: Finding) -> bool:
        """Whether it is what the beat asks, so that it is told before what changed more surely."""
        return False

    def is_part(self, finding: Finding) -> bool:
        """Whether it is a part of the answer, which leads a chart only where nothing else does."""
        return False

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        """Sentences that this kind tempts to and its data do not carry."""
        yield from rows_judged_apart(mine)

    def under_rows(self, mine: Sequence[Finding], measure: Measure) -> list[str]:
        """How differences were taken, where a reader's own subtraction gives another number."""
        marked = any(shown_numbers.unrounded(finding, measure) for finding in mine)
        return [shown_numbers.DIFFERENCES] if marked else []

    def extra(self, finding: Finding) -> str:
        """The cell beside the interval of a finding that is not refused."""
        return shown_numbers.detectable_shown(finding)

    def label(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        """A row's name."""
        return labels.cell_label(finding.values, beat.where, form)

    def grouped(self, finding: Finding, beat: AnyKind, form: Format) -> tuple[str, str]:
        """What its row stands under ('' of none), and its name there: ('Spin', 'overs 11–40').

        Rows of two cuts stand under the first of them.
        """
        first, *more = [*finding.values.items(), ("", "")][: len(finding.values) or 1]
        if not more and (len(beat.cuts) < 2 or first[0] != beat.cuts[0]):
            return "", self.label(finding, beat, form)
        rest = labels.cell_name(dict(more), form)
        return capitalised(labels.cell_name(dict([first]), form)), rest or labels.TOGETHER

    def after_its_measure(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        """Its row as it follows the measure's name: 'spin, overs 11–40'; '' of the whole."""
        return labels.cell_name(finding.values, form)

    def sides(self, finding: Finding, beat: AnyKind, form: Format) -> tuple[str, str]:
        """Names of the two sides in a chart or table."""
        return finding.sides

    def card(
        self, finding: Finding, beat: AnyKind, measure: Measure, form: Format
    ) -> shown_numbers.Card:
        """A headline that is not refused, on the top sheet."""
        return shown_numbers.card_of(finding, self.sides(finding, beat, form), measure)

    def tested(self, finding: Finding) -> str:
        """Size, interval and test of a finding that is not refused, and its place in the family."""
        return tested.change_tested(finding)

    def compared(self, beat: AnyKind, timing: Timing, blind: bool) -> str:
        """What a frame's subtitle adds: what is held against what; '' when that may not be told."""
        if blind or timing.windows is None:
            return ""
        return f" · {against(timing.windows)}"

    def title(
        self,
        mine: Sequence[Finding],
        beat: AnyKind,
        measure: Measure,
        headlines: Sequence[str],
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """A frame's title: its leading finding in a sentence without the full stop."""
        finding = self.lead(mine, headlines)
        if finding is None:
            return beat.title or capitalised(measure.label)
        what = capitalised(subject(finding, beat, measure, form))
        if finding.refused:
            return f"{what}: {refused_in_short(finding)}"
        if finding.verdict == "changed":
            return self.in_short(finding, beat, measure, form, event).rstrip(".")
        if finding.verdict == "held":
            return capitalised(self.stood(finding, beat, measure, form))
        if among := one_of_looks(finding):
            return f"{what}: as {among}, the data can’t tell"
        return f"{what}: the data can’t tell"

    def lead(self, mine: Sequence[Finding], headlines: Sequence[str]) -> Finding | None:
        """What a chart is about: its headline, else what changed most surely, else the whole."""
        told = [finding for finding in mine if not finding.refused]
        if not told:
            return mine[0] if mine else None

        def order(finding: Finding) -> tuple[bool, bool, bool, float]:
            changed = finding.verdict == "changed"
            sure = finding.told.p if changed else float(finding.cell != "all")
            return (finding.id not in headlines, self.is_part(finding), not changed, sure)

        return min(told, key=order)
