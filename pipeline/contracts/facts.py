"""What `charts` and `brief` write for others: charts, facts, the brief in short."""

from __future__ import annotations

from datetime import date

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Verdict


class ChartMade(Contract, kw_only=True):
    """One chart as the brief and an editor need it; files are named after `chart`."""

    chart: str
    beat: str
    measure: str  # as printed
    title: str
    alt: str
    rows_left_out: int
    hold_seconds: float
    frames: list[str]


class Charts(Contract, kw_only=True):
    """charts.json: the charts of a topic, in the order of its beats."""

    charts: list[ChartMade]


class Fact(Contract, kw_only=True):
    """One sayable number: its value, how it is shown and said, what it is of.

    `level` is the confidence of its two ends. A line says value and ends times `scale`, to `digits`
    after the point, in `unit_said`; the last two are none of a fact that an older version wrote.
    """

    id: str
    value: float | int | None
    low: float | None = None
    high: float | None = None
    level: float | None = None
    unit: str
    display: str
    spoken: str
    interval: str | None = None
    scale: int = 1
    digits: int | None = None
    unit_said: str | None = None
    finding: str | None = None
    beat: str | None = None
    measure: str | None = None
    definition: str | None = None
    arithmetic: str | None = None
    query: str | None = None
    headline: bool = False
    verdict: Verdict | None = None
    second: str | None = None  # against the drift and the control: "beyond the drift"

    @property
    def is_listed(self) -> bool:
        """Whether the brief's index has it; points of a series and of lists are in their charts."""
        return self.beat is None or self.finding is not None


class Facts(Contract, kw_only=True):
    """facts.json: every sayable number of a topic, in the order of its findings."""

    facts: list[Fact]


class EarlierFacts(Contract, kw_only=True):
    """What an edition ('long-grass/1') said of numbers that are others now."""

    edition: str
    facts: list[Fact]


class Summary(Contract, kw_only=True):
    """summary.json: what a shelf and an edition need to know of a brief."""

    topic: str
    title: str
    question: str
    answer: list[str]
    fingerprint: str
    matches: str  # as printed
    first: date
    last: date
    looked_at: int
    cant_tell: int
    checked: list[str] = []  # a line a script or captions file that was checked
