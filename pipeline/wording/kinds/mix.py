"""mix: who did what, and how well, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Change, Finding, Mix, Rates
from pipeline.text import capitalised
from pipeline.wording import numbers, shown_numbers
from pipeline.wording.confidence import interval_heading, one_of_looks
from pipeline.wording.heading_words import divided
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.mix_parts import (
    group_said,
    mix_said,
    rates_said,
    share_moved,
    took_it,
    who_did,
    who_it_was,
)
from pipeline.wording.refusals import refused_in_short
from pipeline.wording.scales import change_of, rose_or_fell
from pipeline.wording.subject import subject
from pipeline.wording.temptations import Rank, Temptation

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.contracts.findings import PlayersList

PARTS, GROUPS = "The whole, and what it is made of", "Each group by itself"


class MixWords(KindWords):
    """The whole change, its two parts, then each group's own change and its share of the balls."""

    extra_heading = "Share of balls"
    wide = True

    def said(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> list[str]:
        if isinstance(finding, Mix):
            return mix_said(finding, beat, measure, form)
        if isinstance(finding, Rates):
            return rates_said(finding, beat, measure, form)
        return super().said(finding, beat, measure, form, event)

    def in_short(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        what = subject(finding, beat, measure, form)
        if isinstance(finding, Mix):
            change = change_of(finding)
            return f"A change in {who_did(beat)} took {what} {change.way()} by {change.said()}."
        if isinstance(finding, Rates):
            said = change_of(finding).said()
            return f"With the same mix, {what} {rose_or_fell(finding)} by {said}."
        return super().in_short(finding, beat, measure, form, event)

    def stood(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        what = subject(finding, beat, measure, form)
        if isinstance(finding, Mix):
            return f"a change in {who_did(beat)} did little to {what} by itself"
        if isinstance(finding, Rates):
            return f"with the same mix, {what} held"
        return super().stood(finding, beat, measure, form)

    def open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        what = subject(finding, beat, measure, form)
        if isinstance(finding, Mix):
            return f"a change in {who_did(beat)} moved {what}"
        if isinstance(finding, Rates):
            return f"{what} moved with the mix held still"
        return super().open(finding, beat, measure, form)

    def found_open(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """The part alone: its ends are of no mix that was ever bowled at those rates."""
        if not isinstance(finding, Mix):
            return super().found_open(finding, beat, measure, form, event)
        what, change = self.change_named(finding, beat, measure, form), change_of(finding)
        unit = "points" if finding.kind == "share" else "per cent"
        ends = f"{interval_heading(finding.told.level)} {change.interval()} {unit}"
        return f"{capitalised(what)}: {change.shown()}, {ends}."

    def measured(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        """With the same mix: a part that held or moved is not the whole."""
        what = subject(finding, beat, measure, form)
        return f"{what} with the same mix" if isinstance(finding, Rates) else what

    def named_open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        if not isinstance(finding, Rates):
            return super().named_open(finding, beat, measure, form)
        what = subject(finding, beat, measure, form)
        return f"{what} once you set aside {who_did(beat)}"

    def title(
        self,
        mine: Sequence[Finding],
        beat: AnyKind,
        measure: Measure,
        headlines: Sequence[str],
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """A part that leads is titled as a part."""
        finding = self.lead(mine, headlines)
        if not isinstance(finding, Mix | Rates) or finding.verdict != "can't tell":
            return super().title(mine, beat, measure, headlines, form, event)
        what = subject(finding, beat, measure, form)
        same = isinstance(finding, Rates)
        start = (
            f"With the same mix, {what}"
            if same
            else f"What a change in {who_did(beat)} did to {what}"
        )
        if finding.refused:
            return f"{start}: {refused_in_short(finding)}"
        among = one_of_looks(finding)
        return f"{start}: {f'as {among}, ' if among else ''}the data can’t tell"

    def change_named(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        what = subject(finding, beat, measure, form)
        if isinstance(finding, Mix):
            return f"what a change in {who_did(beat)} did to {what}"
        if isinstance(finding, Rates):
            return f"the change in {what}, with the same mix,"
        return super().change_named(finding, beat, measure, form)

    def heading(self, what: str, beat: AnyKind, form: Format) -> list[str]:
        asked = [f"{who_it_was(beat)}, or how well?", "who, or how well?"]
        whole = [f"{what}, {divided(beat)}", what]
        return [f"{each}: {ask}" for each in whole for ask in asked]

    def opening(
        self, own: Sequence[Finding], beat: AnyKind, form: Format, listed: PlayersList | None
    ) -> list[str]:
        """How much of it the group had whose share moved most."""
        groups = [finding for finding in own if isinstance(finding, Change) and finding.shares]
        if not groups:
            return []
        return [group_said(max(groups, key=share_moved), beat, form)]

    def is_told_first(self, finding: Finding) -> bool:
        return isinstance(finding, Mix | Rates)

    def is_part(self, finding: Finding) -> bool:
        return isinstance(finding, Mix | Rates)

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        if any(isinstance(finding, Mix) and took_it(finding) for finding in mine):
            line = "“They did it better.” Part of the change is who did it, not how."
            yield Temptation(Rank.PARTS, line)

    def label(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        if isinstance(finding, Mix):
            return "Who did what"
        if isinstance(finding, Rates):
            return "The rates themselves"
        return super().label(finding, beat, form)

    def grouped(self, finding: Finding, beat: AnyKind, form: Format) -> tuple[str, str]:
        """The whole stands with the two parts that it is made of."""
        part = isinstance(finding, Mix | Rates) or not finding.values
        return PARTS if part else GROUPS, self.label(finding, beat, form)

    def after_its_measure(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        if not isinstance(finding, Mix | Rates):
            return super().after_its_measure(finding, beat, form)
        label = self.label(finding, beat, form)
        return label[:1].lower() + label[1:]

    def extra(self, finding: Finding) -> str:
        if not isinstance(finding, Change) or finding.shares is None:
            return shown_numbers.NONE
        return " to ".join(numbers.percent(share, 1, signed=False) for share in finding.shares)


WORDS = MixWords()
