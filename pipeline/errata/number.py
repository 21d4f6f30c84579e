"""A number of a brief with all that it is of: a finding, a beat's series or list, or the topic."""

from __future__ import annotations

from dataclasses import dataclass

from pipeline.config.event_views import NamedEvent
from pipeline.config.kinds import AnyBeat
from pipeline.config.measure import Measure
from pipeline.config.project import Format
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding
from pipeline.errata.records import Record
from pipeline.event_of import event_of


@dataclass(frozen=True)
class OfTopic:
    """A count over the topic's data or its comparisons."""

    fact: Fact


@dataclass(frozen=True)
class OfBeat:
    """A point of a beat's series, or a count of its list of players."""

    fact: Fact
    beat: AnyBeat
    measure: Measure
    form: Format


@dataclass(frozen=True)
class OfFinding(OfBeat):
    """A value of one finding's: a side, the change, the step, and so on."""

    finding: Finding
    event: NamedEvent | None

    @property
    def part(self) -> str:
        """What of the finding it is: 'change', 'before', 'step'."""
        return self.fact.id.removeprefix(f"{self.finding.id}.")


Number = OfTopic | OfBeat | OfFinding


def number_of(record: Record, name: str) -> Number | None:
    """The fact of that id with all that it is of; none when the brief has no such fact."""
    fact = record.fact(name)
    if fact is None:
        return None
    finding = record.finding(fact.finding)
    if finding is not None:
        return of_finding(record, fact, finding)
    beat = next((beat for beat in record.view.beats if beat.id == fact.beat), None)
    measure = record.view.measures.get(fact.measure or "")
    if beat is None or measure is None:
        return OfTopic(fact)
    return OfBeat(fact, beat, measure, record.view.format)


def of_finding(record: Record, fact: Fact, finding: Finding) -> OfFinding:
    view = record.view
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    measure = view.measures[finding.measure]
    return OfFinding(fact, beat, measure, view.format, finding, event_of(view, beat))
