"""turning_point: when did it change, asked without being told? In words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Turn
from pipeline.contracts.over_time import TurningDate
from pipeline.text import capitalised
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
            return [refused_said(capitalised(what), finding)]
        turn = date_of(finding)
        if lost(finding):
            lean = f"between {period_said(turn.last)} and {period_said(turn.next)}"
            return [
                f"Asked blind for a break in {what}, the data lean to one {lean}.",
                among_many(finding, BREAK),
            ]
        if finding.verdict != "changed":
            return [
                f"Asked blind for a break in {what}, the data name no {turn.every}: one this large "
                "turns up often enough by luck."
            ]
        step = f"The step there, beside the trend, is {change_of(finding).reach()}."
        said = [_put(what, turn, event), _reach(turn), _event(turn, event), step]
        if turn.second:
            second = turn.second
            ends = f"{period_said(second.last)} and {period_said(second.next)}"
            said.append(f"There is a second break, between {ends}.")
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
        ends = f"{period_said(turn.last)} and {period_said(turn.next)}"
        return f"Asked blind, the data put the break between {ends}"


def date_of(finding: Finding) -> TurningDate:
    """The date of a turning point that is not refused."""
    if not isinstance(finding, Turn) or finding.turn is None:
        raise ValueError(f"{finding.id} has no date")
    return finding.turn


def _put(what: str, turn: TurningDate, event: NamedEvent | None) -> str:
    """Where the data put the break."""
    blind = "Asked blind, the data"
    if event and turn.event:
        blind = f"Don’t tell the data when {event.name} came: asked blind, they"
    ends = f"{period_said(turn.last)} and {period_said(turn.next)}"
    return f"{blind} put a break in {what} between {ends}."


def _reach(turn: TurningDate) -> str:
    """The interval of the date, as the seasons it may come after."""
    if turn.low == turn.high:
        tried = capitalised(numbers.said(turn.dates, 0))
        return f"{tried} dates were tried, and none of the others is left in the running."
    early, late = (tested.after(label, turn) for label in (turn.low, turn.high))
    return f"It could be as early as {early}, or as late as {late}."


def _event(turn: TurningDate, event: NamedEvent | None) -> str | None:
    """Whether the event is inside the interval."""
    if event is None or not turn.event:
        return None
    name = capitalised(event.name)
    if not turn.event.inside:
        return f"{name} came outside that, in {event.date.year}."
    if turn.low == turn.high:
        return f"{name} came just then, which fits; it does not prove it."
    return f"{name} falls inside that, which fits; it does not prove it."


WORDS = TurningPoint()
