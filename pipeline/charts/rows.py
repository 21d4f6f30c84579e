"""What is drawn of findings that stand in rows: two values, and the change between them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pipeline.charts.words import effect
from pipeline.contracts.codes import Verdict
from pipeline.contracts.finding import Finding, Gap
from pipeline.contracts.parts import Span
from pipeline.wording.confidence import LOST, one_of_looks
from pipeline.wording.of_kinds import label
from pipeline.wording.shown_numbers import unrounded

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format


@dataclass(frozen=True)
class Row:
    """One finding as it is drawn and written.

    A gap has no values, for its sides are changes. `change` is in per cent, or in points of a
    share, and none where it is refused; `change_shown` and `interval_shown` are what is written of
    it; `mark` stands at a change in points that the values, as shown, do not subtract to.
    """

    name: str
    a: float | None
    b: float | None
    change: Span | None
    change_shown: str
    interval_shown: str
    verdict: Verdict
    among: str = ""  # 'one of 64 looks', where that is why it can't be told
    mark: str = ""

    @property
    def interval_marked(self) -> str:
        """The interval as it is written, with the mark of what its looks leave undecided."""
        return f"{self.interval_shown}{LOST}" if self.among else self.interval_shown

    @property
    def moved(self) -> bool:
        return self.verdict == "changed"


@dataclass(frozen=True)
class Comparison:
    """Rows with what holds for all of them; `what` the change is called."""

    rows: list[Row]
    sides: tuple[str, str]
    share: bool
    decimals: int
    what: str = "change"
    interval: str = "95% interval"  # as it is called above them
    looks: str = ""  # what its mark means, where a row's count of looks leaves it undecided


def rows_of(
    findings: Iterable[Finding], beat: AnyBeat, measure: Measure, form: Format
) -> list[Row]:
    """A row a finding, under its name."""
    return [_row(finding, label(finding, beat, form), measure) for finding in findings]


def _row(finding: Finding, name: str, measure: Measure) -> Row:
    a, b = (None, None) if isinstance(finding, Gap) else (finding.a.value, finding.b.value)
    mark = unrounded(finding, measure) if measure.kind == "share" else ""
    change, among = _change(finding), one_of_looks(finding)
    return Row(name, a, b, change, *effect(finding), finding.verdict, among, mark)


def _change(finding: Finding) -> Span | None:
    if finding.refused:
        return None
    if finding.kind == "share":
        return finding.told.difference
    change = finding.told.change
    return Span(value=change.value * 100, low=change.low * 100, high=change.high * 100)
