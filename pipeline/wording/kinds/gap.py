"""gap: did one group change more than the other? In words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Change, Finding, Gap
from pipeline.contracts.parts import GroupChange
from pipeline.text import capitalised, possessive
from pipeline.voice.sentence import Told
from pipeline.wording import phrases
from pipeline.wording.change import GAP, among_many, margin_said
from pipeline.wording.clusters import usual_of
from pipeline.wording.confidence import lost
from pipeline.wording.heading_words import divided_too, linked, side_names
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.labels import TOGETHER, value_label
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of, own_change
from pipeline.wording.second_verdict import Whose, drift_said
from pipeline.wording.subject import cell_subject, is_owned, subject, two_groups
from pipeline.wording.temptations import Rank, Temptation

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

DIVIDED = (
    "A gap in per cent is what one group’s change is to the other’s: the two are divided, not "
    "subtracted."
)


class Gaps(KindWords):
    """The gap between the changes of two groups, then each group's own change."""

    def said(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> list[str]:
        if not isinstance(finding, Gap):
            return super().said(finding, beat, measure, form, event)
        return gap_said(finding, beat, measure, form)

    def in_short(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        if not isinstance(finding, Gap):
            return super().in_short(finding, beat, measure, form, event)
        against, change = _against(beat, measure, form), change_of(finding)
        what = self.measured(finding, beat, measure, form)
        return f"Set against {against}, {what} went {change.way()} {change.said()}."

    def stood(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        if not isinstance(finding, Gap):
            return super().stood(finding, beat, measure, form)
        what = self.measured(finding, beat, measure, form)
        return f"{what} moved with {_against(beat, measure, form)}"

    def open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        if not isinstance(finding, Gap):
            return super().open(finding, beat, measure, form)
        what = self.measured(finding, beat, measure, form)
        return f"{what} moved any differently from {_against(beat, measure, form)}"

    def named_open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        if not isinstance(finding, Gap):
            return super().named_open(finding, beat, measure, form)
        cut, *groups = two_groups(beat)
        one, other = (value_label(cut, group, form) for group in groups)
        what = subject(finding, beat, measure, form)
        label = measure.said or measure.label
        if not what.startswith(label):
            return f"the gap between {one} and {other} in {what}"
        return f"the gap in {label} between {one} and {other}{what.removeprefix(label)}"

    def measured(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        """A gap is told as the second group's change."""
        if not isinstance(finding, Gap):
            return super().measured(finding, beat, measure, form)
        return _of_group(finding, 1, beat, measure, form)

    def change_named(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        if not isinstance(finding, Gap):
            return super().change_named(finding, beat, measure, form)
        what = self.measured(finding, beat, measure, form)
        return f"the change in {what}, set against {_against(beat, measure, form)},"

    def side_named(
        self,
        finding: Finding,
        at: int,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        if not isinstance(finding, Gap):
            return super().side_named(finding, at, beat, measure, form, event)
        return f"the change in {_of_group(finding, at, beat, measure, form)}"

    def heading(self, what: str, beat: AnyKind, form: Format) -> list[str]:
        first, second = side_names(beat, form)
        both = linked(first, "and", second)
        asked, short = f"{what}: did {both} move apart", f"{what}: {both}"
        return [*(f"{each}?" for each in [*divided_too([asked], beat), asked]), short]

    def is_told_first(self, finding: Finding) -> bool:
        return isinstance(finding, Gap)

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        yield from _only_one(mine, beat, form)

    def under_rows(self, mine: Sequence[Finding], measure: Measure) -> list[str]:
        gaps = any(isinstance(finding, Gap) and not finding.refused for finding in mine)
        told = super().under_rows(mine, measure)
        return [*told, DIVIDED] if gaps and measure.kind != "share" else told

    def label(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        if not isinstance(finding, Gap):
            return super().label(finding, beat, form)
        return capitalised(self.after_its_measure(finding, beat, form))

    def grouped(self, finding: Finding, beat: AnyKind, form: Format) -> tuple[str, str]:
        if not isinstance(finding, Gap):
            return super().grouped(finding, beat, form)
        first, second = self.sides(finding, beat, form)
        of = ", ".join(value_label(cut, value, form) for cut, value in finding.values.items())
        return capitalised(f"{second} against {first}"), of or TOGETHER

    def after_its_measure(self, finding: Finding, beat: AnyKind, form: Format) -> str:
        if not isinstance(finding, Gap):
            return super().after_its_measure(finding, beat, form)
        first, second = self.sides(finding, beat, form)
        of = [value_label(cut, value, form) for cut, value in finding.values.items()]
        return ", ".join([f"{second} against {first}", *of])

    def sides(self, finding: Finding, beat: AnyKind, form: Format) -> tuple[str, str]:
        if not isinstance(finding, Gap):
            return super().sides(finding, beat, form)
        cut, first, second = two_groups(beat)
        return value_label(cut, first, form), value_label(cut, second, form)


def gap_said(finding: Gap, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """Both changes, then whether their difference is one."""
    cut, *groups = two_groups(beat)
    first, second = (value_label(cut, group, form) for group in groups)
    what = subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(f"{what}, {second} against {first}", finding)]
    one, other = (_went(finding, group) for group in (finding.a, finding.b))
    owned = is_owned(cut, measure)
    each = _of_group(finding, 1, beat, measure, form)
    said = {
        "first": _of_group(finding, 0, beat, measure, form),
        "one": one,
        "second": possessive(second) if owned else each,
        "other": other,
    }
    beside = first if owned else said["first"]
    whose, changes = compared(each, beside), {"first": beside, "second": each}
    return [Told("gap.changes", **said), *_sure(finding, changes), *drift_said(finding, whose)]


def second_of_it(beat: AnyKind, measure: Measure, form: Format) -> str:
    """' in spin’s, compared with pace': whose step it is, after the gap has been named."""
    cut, *groups = two_groups(beat)
    first, second = (value_label(cut, group, form) for group in groups)
    if is_owned(cut, measure):
        return compared(possessive(second), first).of_step
    return f" for {second}, compared with {first}"


def compared(own: str, first: str) -> Whose:
    """Whose drift a gap's is: the second group's number, set against the `first` group."""
    beside = f"{own}, compared with {first}"
    return Whose(f"{own} compared with {first}", " in the gap between them", f" in {beside}")


def _sure(finding: Gap, own: dict[str, str]) -> list[str]:
    """Whether their difference is one; `own` names the first group, and the second's number."""
    if finding.verdict == "held":
        return [Told("gap.held", margin=margin_said(finding))]
    change = change_of(finding)
    if finding.verdict == "changed":
        went = "went up by" if change.way() == "up" else "came down by"
        return [Told("gap.changed", went=went, reach=change.could_be(None), **own)]
    could = Told("gap.reach", reach=change.could_be(phrases.TIME), **own)
    if lost(finding):
        return [among_many(finding, GAP), could]
    if usual := usual_of(finding):
        return [Told(f"gap.open.usual.{usual.by}", **usual.slots), could]
    return [Told("gap.open"), could]


def _went(finding: Gap, group: GroupChange) -> str:
    """'up about three per cent': one group's own change."""
    change = own_change(group, finding.kind)
    if change is None:
        raise ValueError(f"{finding.id} has an effect, and a side without a change")
    return f"{change.way()} {change.said()}"


def _against(beat: AnyKind, measure: Measure, form: Format) -> str:
    """What the second group is set against: 'pace’s'."""
    cut, first, _ = two_groups(beat)
    name = value_label(cut, first, form)
    return possessive(name) if is_owned(cut, measure) else name


def _of_group(finding: Gap, at: int, beat: AnyKind, measure: Measure, form: Format) -> str:
    """Whose number a side is: 'spin’s economy at the death'."""
    cut, *groups = two_groups(beat)
    return cell_subject({cut: groups[at], **finding.values}, beat, measure, form)


def _only_one(mine: Sequence[Finding], beat: AnyKind, form: Format) -> Iterator[Temptation]:
    """One group changed, the other can't be called: that is no difference between them."""
    cut, *groups = two_groups(beat)
    changes = [finding for finding in mine if isinstance(finding, Change)]
    for gap in (finding for finding in mine if isinstance(finding, Gap)):
        cells = [{cut: group, **gap.values} for group in groups]
        verdicts = [each.verdict for cell in cells for each in changes if each.values == cell]
        if gap.verdict != "changed" and sorted(verdicts) == ["can't tell", "changed"]:
            name = value_label(cut, groups[verdicts.index("changed")], form)
            line = f"“Only {name} changed.” Changed here and can’t tell there is not a difference."
            yield Temptation(Rank.ORDER, line)
            return


WORDS = Gaps()
