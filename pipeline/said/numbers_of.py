"""A number of a brief with all that it is of: a finding, a beat's series or list, or the topic."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding
from pipeline.event_of import event_of

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import BriefView


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


def of_fact(fact: Fact, finding: Finding | None, view: BriefView) -> Number:
    """The fact with all that it is of; the finding is its own, where it has one."""
    if finding is not None:
        beat = next(beat for beat in view.beats if beat.id == finding.beat)
        measure = view.measures[finding.measure]
        return OfFinding(fact, beat, measure, view.format, finding, event_of(view, beat))
    beat_of = next((beat for beat in view.beats if beat.id == fact.beat), None)
    measure_of = view.measures.get(fact.measure or "")
    if beat_of is None or measure_of is None:
        return OfTopic(fact)
    return OfBeat(fact, beat_of, measure_of, view.format)
