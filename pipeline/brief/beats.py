"""A beat's page: chart, lines to say, table, and three columns of care."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pipeline.brief.careful import MOST_SAID, Care
from pipeline.brief.table_rows import Row, RowGroup, row_groups, table_row
from pipeline.config.frame_files import panel_charts
from pipeline.contracts.facts import ChartMade
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.event_of import event_of
from pipeline.text import capitalised
from pipeline.wording import challenged, composition, numbers, of_kinds, second_verdict
from pipeline.wording.another_event import now
from pipeline.wording.confidence import heading_of, levels_note
from pipeline.wording.dont_say import dont_say
from pipeline.wording.headings import headings_of
from pipeline.wording.labels import measured_in
from pipeline.wording.linked import linked
from pipeline.wording.other_ways import panel_said
from pipeline.wording.yardstick import first_told, yardstick_said

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.views import BriefView

MOST_WARNED = 3  # tempting sentences a page; the first are the worst
AS_IN = "As in “"  # before a beat's heading: what its page tells in full


@dataclass(frozen=True)
class Drawing:
    """A chart of the page: its name, what it shows in words, how long it stays on screen.

    Of a headline asked in other ways `of` names the headline's row.
    """

    chart: str
    alt: str
    hold: str
    of: str = ""


@dataclass(frozen=True, kw_only=True)
class Part:
    """One measure of a beat."""

    measure: str
    unit: str
    named: str
    share: bool
    chart: Drawing
    panels: list[Drawing]
    left_out: str
    sides: list[str]
    change: str
    extra: str
    wide: bool
    interval: str
    levels: list[str]
    lines: list[str]
    rows: list[Row]
    under: list[str]

    @property
    def drifts(self) -> bool:
        """Whether any row has a second verdict."""
        return any(row.second for row in self.rows)

    @property
    def groups(self) -> list[RowGroup]:
        """The rows as they stand in the table: by what they are of."""
        return row_groups(self.rows)

    @property
    def marked(self) -> bool:
        """Whether a headline stands among other rows."""
        return len(self.rows) > 1 and any(row.headline for row in self.rows)


@dataclass(frozen=True, kw_only=True)
class BeatPage:
    """A beat as it is printed; `count` is how many there are.

    `again` is on cautions that were printed before, or says that there are none.
    """

    id: str
    position: int
    count: int
    title: str
    note: str | None
    parts: list[Part]
    challenged: list[str]
    careful: list[str]
    again: str
    dont_say: list[str]

    @property
    def care(self) -> list[str]:
        """All that is printed under "Careful"."""
        return [*self.careful, *([self.again] if self.again else [])]

    @property
    def lines(self) -> list[str]:
        """The lines to say, of all its measures."""
        return [line for part in self.parts for line in part.lines]


def beat_page(
    position: int,
    beat: AnyBeat,
    view: BriefView,
    findings: Findings,
    charts: Sequence[ChartMade],
    care: Care,
) -> BeatPage:
    """A beat: for each measure its chart, lines to say and table, then three columns of care.

    `care` are its cautions, which hang on what the pages before it say.
    """
    mine = [finding for finding in findings.findings if finding.beat == beat.id]
    told = [_as_told(finding, findings) for finding in mine]
    words = next(topic for topic in view.words.beats if topic.id == beat.id)
    return BeatPage(
        id=beat.id,
        position=position,
        count=len(view.beats),
        title=headings_of(view)[beat.id],
        note=words.note,
        parts=[_part(name, beat, mine, view, findings, charts) for name in beat.measures],
        challenged=_challenged(beat, mine, view, findings),
        careful=care.said,
        again=care.again,
        dont_say=dont_say(beat, told, event_of(view, beat), view.format)[:MOST_WARNED],
    )


def _part(
    name: str,
    beat: AnyBeat,
    mine: list[Finding],
    view: BriefView,
    findings: Findings,
    charts: Sequence[ChartMade],
) -> Part:
    measure = view.measures[name]
    own = [finding for finding in mine if finding.measure == name]
    chart = next(made for made in charts if made.chart == f"{beat.id}.{name}")
    sides = of_kinds.sides(own[0], beat, view.format) if own else ("", "")
    left_out = chart.rows_left_out
    asked = {one.id: one for one in own if one.panel}
    panels = {
        chart: of_kinds.label(asked[identity], beat, view.format)
        for identity, chart in panel_charts([beat], list(asked)).items()
    }
    return Part(
        under=of_kinds.under_rows(own, beat, measure),
        measure=measure.label,
        unit=measure.unit,
        named=measured_in(measure),
        share=measure.kind == "share",
        chart=_drawing(chart),
        panels=[_drawing(made, panels[made.chart]) for made in charts if made.chart in panels],
        left_out=f"{numbers.counted(left_out, 'more row')} in the table." if left_out else "",
        sides=[capitalised(side) for side in sides],
        change=of_kinds.change_heading(beat),
        extra=of_kinds.extra_heading(beat),
        wide=of_kinds.extra_is_wide(beat),
        interval=heading_of(own),
        levels=levels_note(own),
        lines=[
            *of_kinds.opening(own, beat, view.format, findings.lists.get(f"{beat.id}.{name}")),
            *lines_said(own, beat, measure, findings, view),
            *yardstick_line(name, beat, mine, findings, view),
        ],
        rows=[table_row(each, beat, measure, view.format, findings.headlines) for each in own],
    )


def _drawing(made: ChartMade, of: str = "") -> Drawing:
    return Drawing(made.chart, made.alt, f"{numbers.shown(made.hold_seconds, 0)} s", of)


def lines_said(
    own: Sequence[Finding],
    beat: AnyBeat,
    measure: Measure,
    findings: Findings,
    view: BriefView,
) -> list[str]:
    """A line for each finding worth saying; one that goes the other way says so."""
    lines: list[str] = []
    before: Finding | None = None
    for finding in of_kinds.worth_saying(own, beat, findings.headlines, MOST_SAID):
        line = line_of(finding, beat, measure, findings, view)
        lines.append(f"{linked(before, finding)}{line}" if before else line)
        before = finding
    event = event_of(view, beat)
    opened = [now(line, beat, event) for line in lines[:1]]
    return [capitalised(line) for line in (*opened, *lines[1:])]


def yardstick_line(
    name: str, beat: AnyBeat, mine: Sequence[Finding], findings: Findings, view: BriefView
) -> list[str]:
    """How far it moves with no event: of the first number of the beat that is told, once a beat."""
    said = [
        finding
        for each in beat.measures
        for finding in of_kinds.worth_saying(
            [one for one in mine if one.measure == each], beat, findings.headlines, MOST_SAID
        )
    ]
    first = first_told(said)
    if first is None or first.measure != name:
        return []
    line = yardstick_said(first, beat, view.measures[name], view.format)
    return [line] if line else []


def line_of(
    finding: Finding, beat: AnyBeat, measure: Measure, findings: Findings, view: BriefView
) -> str:
    """All its sentences; of one that an earlier page puts into words, what it came to, and where.

    The row that it repeats may not be among those: then it is told in full, with that row's drift
    where it has none of its own.
    """
    first = None if finding.refused else _first(finding, findings)
    told = _as_told(finding, findings)
    if first is None or not _is_said(first, findings, view):
        said = of_kinds.said(told, beat, measure, view.format, event_of(view, beat))
        said = [*said, panel_said(finding.panel, finding.verdict, measure)]
        return " ".join(part for part in said if part)
    title = headings_of(view)[first.beat]
    short = of_kinds.breath(told, beat, measure, view.format, event_of(view, beat))
    return f"{AS_IN}{title}”: {short}"


def _as_told(finding: Finding, findings: Findings) -> Finding:
    """With what another finding that answers its question was asked besides."""
    drifted = second_verdict.with_drift_of(finding, _first(finding, findings))
    return composition.with_that_of(drifted, findings.findings)


def _first(finding: Finding, findings: Findings) -> Finding | None:
    """The first finding that answers its question, where that is not itself."""
    return next((each for each in findings.findings if each.id == finding.again), None)


def _is_said(finding: Finding, findings: Findings, view: BriefView) -> bool:
    """Whether its own beat's page puts it into words."""
    own = [
        each
        for each in findings.findings
        if (each.beat, each.measure) == (finding.beat, finding.measure)
    ]
    beat = _beat_of(finding, view)
    said = of_kinds.worth_saying(own, beat, findings.headlines, MOST_SAID)
    return finding.id in {each.id for each in said}


def _beat_of(finding: Finding, view: BriefView) -> AnyBeat:
    return next(beat for beat in view.beats if beat.id == finding.beat)


def _challenged(
    beat: AnyBeat, mine: list[Finding], view: BriefView, findings: Findings
) -> list[str]:
    """Two lines a measure (sample and definition; interval and test), then the second verdicts.

    Then what else changed, of each headline.
    """
    form = view.format
    lines: list[str | None] = []
    for name in beat.measures:
        measure, own = view.measures[name], [f for f in mine if f.measure == name]
        lines.append(challenged.sample_line(measure, findings.samples[f"{beat.id}.{name}"]))
        worth = of_kinds.worth_saying(own, beat, findings.headlines, MOST_SAID)
        lines += [challenged.test_line(finding, beat, form) for finding in worth[:1]]
        more = (challenged.drift_line, challenged.control_line)
        told = [_as_told(finding, findings) for finding in worth]
        lines += [line(finding, beat, form) for finding in told for line in more]
        lines += [challenged.composition_line(finding, beat, form) for finding in own]
    return [line for line in dict.fromkeys(lines) if line]
