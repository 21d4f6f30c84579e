"""The words on a chart: headings, samples, credits, and a change with its interval."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Sample
from pipeline.contracts.timing import Timing
from pipeline.text import capitalised
from pipeline.wording import numbers
from pipeline.wording.labels import measured_in
from pipeline.wording.of_kinds import compared, headline_name
from pipeline.wording.refusals import refused_in_short
from pipeline.wording.subject import cell_subject
from pipeline.wording.windows import against

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format, Source

HUNDREDFOLD = 99.0  # a change of 9,900 per cent


def subtitle(
    beat: AnyBeat, measure: Measure, form: Format, timing: Timing, blind: bool = False
) -> str:
    """What is measured, on which balls, in which windows."""
    what = measured_in(measure, cell_subject({}, beat, measure, form, bare=True))
    return f"{capitalised(what)}{compared(beat, timing, blind)}"


def asked_again(
    finding: Finding, beat: AnyBeat, measure: Measure, form: Format, timing: Timing
) -> str:
    """What a headline's number is of, in which windows."""
    name = headline_name(finding, beat, measure, form)
    return f"{name} · {against(timing.windows)}" if timing.windows else name


def foot(credits: list[Source], sample: Sample) -> tuple[str, str]:
    """(sample and credit, the notice that goes with the data)."""
    credit = "; ".join(source.credit_line for source in credits)
    notices = [source.notice for source in credits if source.notice]
    counts = f"{numbers.matches(sample.matches)}, {numbers.counted(sample.balls, 'ball')}"
    return f"{counts} · {credit}", "; ".join(dict.fromkeys(notices))


def effect(finding: Finding) -> tuple[str, str]:
    """(the change, its 95 % interval): points for a share, else per cent.

    A change beyond a hundredfold, of a number that was next to nothing, is a count of times: its
    percentage would take the chart's whole width.
    """
    if finding.refused:
        return "", refused_in_short(finding)
    if finding.kind == "share":
        points = finding.told.difference
        return numbers.points(points.value), numbers.between(points.low, points.high, 1)
    change = finding.told.change
    if change.value > HUNDREDFOLD:
        return f"{numbers.shown(1 + change.value, 0)} times", "interval in the table"
    return numbers.percent(change.value), numbers.between(change.low * 100, change.high * 100, 1)
