"""One chart: what it shows, and what its drawing is told beside it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from pipeline.contracts.codes import Unit
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Point, Sample
from pipeline.contracts.timing import Timing

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format, Source


@dataclass(frozen=True)
class Chart:
    """What one chart shows: a beat's measure with its findings, or its series; whose data it is.

    With `again` it is the one finding, a headline, asked in other ways.
    """

    name: str
    beat: AnyBeat
    measure: Measure
    findings: list[Finding]
    series: list[Point] | None
    sample: Sample
    credits: list[Source]
    timing: Timing
    again: bool = False

    @property
    def hides(self) -> bool:
        """Whether it is drawn once more without the date; its panel would give the date away."""
        return self.beat.hides_when and not self.again

    @property
    def unit(self) -> Unit:
        """What a point of its series is."""
        return self.beat.point or self.timing.unit

    @property
    def points(self) -> list[Point]:
        """The series of a chart that has one."""
        if self.series is None:
            raise ValueError(f"{self.name} has no series")
        return self.series


@dataclass(frozen=True)
class Around:
    """What is known around a chart: the names of phases, the topic's events.

    `event` is the day that its changes are about, one of the `dates`. Blind, nothing drawn says
    when.
    """

    form: Format
    dates: list[tuple[str, date]]
    event: date | None = None
    blind: bool = False
