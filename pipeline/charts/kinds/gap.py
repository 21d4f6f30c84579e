"""gap: the two groups' own changes, and under them the gap between these."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.charts.alt_text import describe_nothing, describe_rows
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.comparison import draw_findings, height_of
from pipeline.charts.rows import rows_of
from pipeline.contracts.finding import Change, Finding, Gap

if TYPE_CHECKING:
    from pipeline.config.project import Format

SIDES = ("before", "after")  # of the values drawn, which are the groups'
NO_GAP = "One of the two groups has no ball to compare."
MOST_ROWS = 9  # three gaps, each under its two groups


def rows(chart: Chart) -> list[Finding]:
    """Each cell's two groups, then the gap between their changes."""
    found: list[Finding] = []
    for gap in chart.findings:
        if isinstance(gap, Gap):
            found += [*_groups(chart, gap), gap]
    return found[:MOST_ROWS]


def _groups(chart: Chart, gap: Gap) -> list[Change]:
    """The changes of the two groups that a gap is of."""
    if chart.beat.groups is None:
        raise ValueError(f"beat '{chart.beat.id}' has no two groups")
    cut, *groups = chart.beat.groups
    changes = [finding for finding in chart.findings if isinstance(finding, Change)]
    wanted = [{cut: group, **gap.values} for group in groups]
    return [change for values in wanted for change in changes if change.values == values]


def left_out(chart: Chart) -> int:
    return len(chart.findings) - len(rows(chart))


def page_height(chart: Chart) -> int:
    return height_of(len(rows(chart)))


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    told = rows(chart)
    if told:
        draw_findings(canvas, chart, told, SIDES, around.form, box)
    else:
        canvas.sentence(NO_GAP, box.left, box.top)


def described(chart: Chart, form: Format) -> str:
    told = rows_of(rows(chart), chart.beat, chart.measure, form)
    if not told:
        return describe_nothing(chart.measure, NO_GAP)
    return describe_rows(chart.measure, told, SIDES)
