"""If challenged: what was counted, over what, how sure, and by which test; two lines a measure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, control_of
from pipeline.text import capitalised
from pipeline.wording import composition, numbers, of_kinds, second_verdict
from pipeline.wording.confidence import interval_heading
from pipeline.wording.control import parallel_shown
from pipeline.wording.scales import beyond

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.contracts.findings import Sample


def sample_line(measure: Measure, sample: Sample) -> str:
    """Definition and sample."""
    counts = f"{numbers.counted(sample.balls, 'ball')} in {numbers.matches(sample.matches)}"
    return f"{capitalised(measure.label)} is {measure.defined}: {counts}."


def test_line(finding: Finding, beat: AnyBeat, form: Format) -> str:
    """Interval and test of one finding that is said, and its place in the family."""
    name = of_kinds.label(finding, beat, form)
    if finding.refused:
        return f"{name}: no interval, no test."
    return f"{name}: {of_kinds.tested(finding, beat)}."


def drift_line(finding: Finding, beat: AnyBeat, form: Format) -> str | None:
    """The numbers behind the second verdict."""
    line = second_verdict.numbers_behind(finding)
    if line is None:
        return None
    return f"{of_kinds.label(finding, beat, form)}: {line[:1].lower()}{line[1:]}"


def control_line(finding: Finding, beat: AnyBeat, form: Format) -> str | None:
    """The numbers behind the verdict beside the control."""
    control = control_of(finding)
    if not control or finding.refused:
        return None
    change, name = beyond(control, finding.kind), of_kinds.label(finding, beat, form)
    ends = f"{interval_heading(control.effect.level)} {change.interval()}"
    beside = f"; {shown}" if (shown := parallel_shown(control)) else ""
    return f"{name} beyond {control.name}: {change.shown()}, {ends}{beside}."


def composition_line(finding: Finding, beat: AnyBeat, form: Format) -> str | None:
    """What else changed, of a headline that was asked."""
    row = "" if finding.cell == "all" else of_kinds.row_name(finding, beat, form)
    return composition.what_else(finding, row, form)
