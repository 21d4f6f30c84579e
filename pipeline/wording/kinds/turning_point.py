"""turning_point: when did it change, asked without being told? In words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Turn
from pipeline.contracts.over_time import TurningDate
from pipeline.voice.sentence import Told
from pipeline.wording import numbers, tested
from pipeline.wording.change import BREAK, among_many
from pipeline.wording.confidence import lost
from pipeline.wording.heading_words import whats
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.labels import break_shown, period_said
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of
from pipeline.wording.shown_numbers import Card
from pipeline.wording.subject import subject
from pipeline.wording.temptations import Temptation

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.contracts.timing import Timing


class TurningPoint(KindWords):
    """One date a measure, and whether the event is inside its interval."""

    change_heading = "Step"
    extra_heading = "Trend"
    wide = True

    def said(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> list[str]:
        what = subject(finding, beat, measure, form)
        if finding.refused:
            return [refused_said(what, finding)]
        turn = date_of(finding)
        if lost(finding):
            lean = f"between {_ends(turn.last, turn.next)}"
            return [Told("turn.lean", what=what, lean=lean), among_many(finding, BREAK)]
        if finding.verdict != "changed":
            return [Told("turn.none", what=what, every=turn.every)]
        step = Told("turn.step", reach=change_of(finding).reach())
        said = [_put_said(what, turn, event), _reach(turn), _event(turn, event), step]
        if turn.second:
            said.append(Told("turn.second", ends=_ends(turn.second.last, turn.second.next)))
        return [sentence for sentence in said if sentence]

    def in_short(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        return _put(subject(finding, beat, measure, form), date_of(finding), event)

    def found_open(
        self,
        finding: Finding,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """It has no two values, and no date: what is said of it is all there is."""
        return " ".join(self.said(finding, beat, measure, form, event))

    def open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        what = self.measured(finding, beat, measure, form)
        return f"{what} turned at any one {date_of(finding).every}"

    def named_open(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        return f"a turning point in {self.measured(finding, beat, measure, form)}"

    def side_named(
        self,
        finding: Finding,
        at: int,
        beat: AnyKind,
        measure: Measure,
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        """Its sides are of the break that was found, not of the event.

        An edition of 0.8 has all of a side as its value, without a trend.
        """
        what = self.measured(finding, beat, measure, form)
        if isinstance(finding, Turn) and finding.turn:
            when = ("before", "after")[at]
            if finding.turn.trend is None:
                return f"{what} {when} the break"
            return f"the fitted level of {what} just {when} the break"
        return f"{what} in the {finding.sides[at]} half"

    def headings(
        self, beat: AnyKind, measures: Mapping[str, Measure], form: Format
    ) -> list[list[str]]:
        """A question, in which the measure is named as in a sentence: 'the run rate'."""
        asked = "when" if beat.point in (None, "season") else f"in which {beat.point}"
        return [[f"{asked} did {what} turn?"] for what in whats(beat, measures, form, bare=False)]

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        yield from ()

    def card(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> Card:
        """Its number is its date."""
        turn = date_of(finding)
        detail = tested.dates_shown(turn)
        if turn.event:
            detail += f"; the event is {'inside' if turn.event.inside else 'outside'}"
        where = "where the data put the break, asked blind"
        return Card(break_shown(turn.last, turn.next), "date", where, detail)

    def change_named(self, finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
        return f"the step in {self.measured(finding, beat, measure, form)} at the break"

    def extra(self, finding: Finding) -> str:
        """What the trend beside the step adds from point to point."""
        turn = date_of(finding)
        return "" if turn.trend is None else f"{numbers.percent(turn.trend)} a {turn.every}"

    def tested(self, finding: Finding) -> str:
        return tested.date_tested(finding, date_of(finding))

    def compared(self, beat: AnyKind, timing: Timing, blind: bool) -> str:
        return f", by {beat.point or timing.unit}"

    def title(
        self,
        mine: Sequence[Finding],
        beat: AnyKind,
        measure: Measure,
        headlines: Sequence[str],
        form: Format,
        event: NamedEvent | None,
    ) -> str:
        finding = self.lead(mine, headlines)
        if finding is None or finding.refused or finding.verdict != "changed":
            return super().title(mine, beat, measure, headlines, form, event)
        turn = date_of(finding)
        return f"Asked blind, the data put the break between {_ends(turn.last, turn.next)}"


def date_of(finding: Finding) -> TurningDate:
    """The date of a turning point that is not refused."""
    if not isinstance(finding, Turn) or finding.turn is None:
        raise ValueError(f"{finding.id} has no date")
    return finding.turn


def _ends(last: str, following: str) -> str:
    return f"{period_said(last)} and {period_said(following)}"


def _put(what: str, turn: TurningDate, event: NamedEvent | None) -> str:
    """Where the data put the break, in one sentence."""
    blind = "Asked blind, the data"
    if event and turn.event:
        blind = f"Don’t tell the data when {event.name} came: asked blind, they"
    return f"{blind} put a break in {what} between {_ends(turn.last, turn.next)}."


def _put_said(what: str, turn: TurningDate, event: NamedEvent | None) -> Told:
    """The same as it is said among other sentences."""
    ends = _ends(turn.last, turn.next)
    if event and turn.event:
        return Told("turn.put.event", event=event.name, what=what, ends=ends)
    return Told("turn.put", what=what, ends=ends)


def _reach(turn: TurningDate) -> Told:
    """The interval of the date, as the seasons it may come after."""
    if turn.low == turn.high:
        return Told("turn.only", tried=numbers.said(turn.dates, 0))
    early, late = (tested.after(label, turn) for label in (turn.low, turn.high))
    return Told("turn.reach", early=early, late=late)


def _event(turn: TurningDate, event: NamedEvent | None) -> Told | None:
    """Whether the event is inside the interval."""
    if event is None or not turn.event:
        return None
    if not turn.event.inside:
        return Told("turn.outside", event=event.name, year=str(event.date.year))
    return Told("turn.just_then" if turn.low == turn.high else "turn.inside", event=event.name)


WORDS = TurningPoint()
