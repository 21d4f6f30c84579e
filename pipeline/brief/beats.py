"""A beat's page: chart, lines to say, table, and three columns of care."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pipeline.brief.careful import Care
from pipeline.brief.table_rows import Row, RowGroup, row_groups, table_row
from pipeline.config.frame_files import panel_charts
from pipeline.contracts.episode import Role
from pipeline.contracts.facts import ChartMade
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.episode.choice import of_beat
from pipeline.episode.lines_of import as_told, lines_of
from pipeline.event_of import event_of
from pipeline.text import capitalised
from pipeline.voice.line import Line
from pipeline.wording import challenged, numbers, of_kinds
from pipeline.wording.confidence import heading_of, levels_note
from pipeline.wording.dont_say import dont_say
from pipeline.wording.headings import headings_of
from pipeline.wording.labels import measured_in

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.views import BriefView

MOST_WARNED = 3  # tempting sentences a page; the first are the worst


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
    told: list[Line]
    rows: list[Row]
    under: list[str]

    @property
    def lines(self) -> list[str]:
        """The lines to say, as they are read."""
        return [line.text for line in self.told]

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

    `opening` is how it follows the beat before it, said before its lines. `again` is on cautions
    that were printed before, or says that there are none.
    """

    id: str
    position: int
    count: int
    title: str
    note: str | None
    opening: Line | None = None
    role: Role | None = None
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

    @property
    def said(self) -> list[str]:
        """All that is said: the opening, then the lines."""
        return [*([self.opening.text] if self.opening else []), *self.lines]


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
    told = [as_told(finding, findings) for finding in mine]
    lines = lines_of(beat, view, findings)
    words = next(topic for topic in view.words.beats if topic.id == beat.id)
    return BeatPage(
        id=beat.id,
        position=position,
        count=len(view.beats),
        title=headings_of(view)[beat.id],
        note=words.note,
        parts=[
            _part(name, beat, mine, view, findings, charts, lines[name]) for name in beat.measures
        ],
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
    told: list[Line],
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
        under=[
            *of_kinds.under_rows(own, beat, measure),
            *of_kinds.of_list(own, beat, findings.lists.get(f"{beat.id}.{name}")),
        ],
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
        told=told,
        rows=[table_row(each, beat, measure, view.format, findings.headlines) for each in own],
    )


def _drawing(made: ChartMade, of: str = "") -> Drawing:
    return Drawing(made.chart, made.alt, f"{numbers.shown(made.hold_seconds, 0)} s", of)


def _challenged(
    beat: AnyBeat, mine: list[Finding], view: BriefView, findings: Findings
) -> list[str]:
    """Two lines a measure (sample and definition; interval and test), then the second verdicts.

    Then what else changed, of each headline.
    """
    form, said = view.format, of_beat(beat, view, findings).told
    lines: list[str | None] = []
    for name in beat.measures:
        measure, own = view.measures[name], [f for f in mine if f.measure == name]
        worth = [each for each in said if each.measure == name]
        lines.append(challenged.sample_line(measure, findings.samples[f"{beat.id}.{name}"]))
        lines += [challenged.test_line(finding, beat, form) for finding in worth[:1]]
        more = (challenged.drift_line, challenged.control_line)
        told = [as_told(finding, findings) for finding in worth]
        lines += [line(finding, beat, form) for finding in told for line in more]
        lines += [challenged.composition_line(finding, beat, form) for finding in own]
    return [line for line in dict.fromkeys(lines) if line]
