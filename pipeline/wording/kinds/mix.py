"""mix: who did what, and how well, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.config.cuts import OF_BATTER
from pipeline.contracts.finding import Change, Finding, Mix, Rates
from pipeline.text import capitalised
from pipeline.wording import numbers, phrases, shown_numbers, values
from pipeline.wording.change import among_many, margin_said
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of, rose_or_fell
from pipeline.wording.subject import balls_of, subject, where_said
from pipeline.wording.temptations import Rank, Temptation
from pipeline.wording.values import unit_said, values_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import NamedEvent
    from pipeline.contracts.findings import PlayersList

BOWLERS = {"bowler_kind", "bowler_arm"}  # whose names are said as one: 'spin bowled it'
BATTERS = {"batter_hand"}


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
            return mix_said(finding, beat, measure)
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

    def change_named(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        what = subject(finding, beat, measure, form)
        if isinstance(finding, Mix):
            return f"what a change in {who_did(beat)} did to {what}"
        if isinstance(finding, Rates):
            return f"the change in {what}, with the same mix,"
        return super().change_named(finding, beat, measure, form)

    def opening(
        self, own: Sequence[Finding], beat: AnyKind, form: Format, listed: PlayersList | None
    ) -> list[str]:
        """How much of it the group had whose share moved most."""
        groups = [finding for finding in own if isinstance(finding, Change) and finding.shares]
        if not groups:
            return []
        return [group_said(max(groups, key=_share_moved), beat, form)]

    def is_told_first(self, finding: Finding) -> bool:
        return isinstance(finding, Mix | Rates)

    def is_part(self, finding: Finding) -> bool:
        return isinstance(finding, Mix | Rates)

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        if any(isinstance(finding, Mix) and finding.verdict == "changed" for finding in mine):
            line = "“They did it better.” Part of the change is who did it, not how."
            yield Temptation(Rank.PARTS, line)

    def label(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        if isinstance(finding, Mix):
            return "Who did what"
        if isinstance(finding, Rates):
            return "The rates themselves"
        return super().label(finding, beat, form)

    def after_its_measure(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        if not isinstance(finding, Mix | Rates):
            return super().after_its_measure(finding, beat, form)
        label = self.label(finding, beat, form)
        return label[:1].lower() + label[1:]

    def extra(self, finding: Finding) -> str:
        if not isinstance(finding, Change) or finding.shares is None:
            return shown_numbers.NONE
        return " to ".join(numbers.percent(share, 1, signed=False) for share in finding.shares)


def who_did(beat: AnyKind) -> str:
    """Whose work the mix is of: 'who bowled it', or who faced it."""
    return "who faced it" if set(beat.cuts) & OF_BATTER else "who bowled it"


def mix_said(finding: Mix, beat: AnyKind, measure: Measure) -> list[str]:
    """What the change of who did what was worth by itself."""
    who = who_did(beat)
    if finding.refused:
        return [refused_said(capitalised(who), finding)]
    if finding.verdict == "held":
        return [f"{capitalised(who)} hardly matters: by itself it is under {margin_said(finding)}."]
    units = finding.told.difference
    way = "up" if units.value > 0 else "down"
    size = phrases.size(units.value, units.half, measure.decimals, measure.unit)
    if finding.verdict == "changed":
        return [f"A change in {who} took it {way} by itself: {size}."]
    if finding.because == "lost_among_many":
        return [f"A change in {who} took it {way}: {size}. {among_many(finding)}"]
    reach = change_of(finding).reach()
    return [f"Whether a change in {who} moved it can’t be called: anything {reach} fits."]


def rates_said(finding: Rates, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """The whole with the mix held still."""
    what = subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(f"With the mix held still, {what}", finding)]
    a, b = values_said(finding, measure)
    first = numbers.with_unit(a, unit_said(measure))
    start = "With the same mix in both,"
    reach = change_of(finding).reach()
    if finding.verdict == "changed":
        line = f"{start} {what} {rose_or_fell(finding)} from {first} to {b}."
        return [line, f"With luck allowed for, that part is {reach}."]
    if finding.verdict == "held":
        return [f"{start} {what} held: if the rates moved, it is under {margin_said(finding)}."]
    if finding.because == "lost_among_many":
        return [f"{start} {what} went from {first} to {b}. {among_many(finding)}"]
    return [f"{start} {what} could have gone either way: anything {reach} fits."]


def group_said(group: Change, beat: AnyKind, form: Format) -> str:
    """How much of it a group had before and after, to the whole per cent."""
    shares = _shares(group)
    a, b = values.both_said(shares[0] * 100, shares[1] * 100, 0, 1, share=False)
    simple = [phrases.share_said(share) for share in shares]
    of_all = " per cent"
    if a != b and not any("per cent" in said for said in simple):
        (a, b), of_all = simple, ""
    which = where_said(beat, form)
    said = f"{capitalised(balls_of(group.values, form))} {_did(group)} {a}{of_all} of "
    said += f"the balls{which}" if which else "all balls"
    return f"{said}, before and after." if a == b else f"{said} before, and {b} after."


def _did(group: Change) -> str:
    """What a group does to its share: spin bowled it, spin at the death was so much of it."""
    if set(group.values) <= BOWLERS:
        return "bowled"
    if set(group.values) <= BATTERS:
        return "faced"
    return "was" if set(group.values) & BOWLERS else "were"


def _shares(group: Change) -> tuple[float, float]:
    if group.shares is None:
        raise ValueError(f"{group.id} is no group of a mix")
    return group.shares


def _share_moved(group: Change) -> float:
    before, after = _shares(group)
    return abs(after - before)


WORDS = MixWords()
