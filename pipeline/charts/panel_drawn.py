"""A headline asked in other ways: its own row on top, under it a line a way, by kind of way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.marks import key
from pipeline.charts.panel_lines import (
    Rows,
    coloured,
    draw_frame,
    draw_lines,
    draw_row,
    height_on_page,
    placed,
)
from pipeline.charts.theme import PAGE
from pipeline.charts.words import effect
from pipeline.contracts.codes import Verdict
from pipeline.contracts.finding import Finding
from pipeline.contracts.panel import Panel
from pipeline.text import capitalised
from pipeline.wording import numbers
from pipeline.wording.confidence import heading_of
from pipeline.wording.other_ways import Group, groups_of, panel_title, way_short
from pipeline.wording.refusals import refusal_said
from pipeline.wording.scales import change_of

if TYPE_CHECKING:
    from pipeline.config.project import Format

HEAD, FOOT = 2.0, 1.9  # lines of body and small text above and below the rows
NAMES, COUNTS = 0.25, 0.33  # of the width: what is left out, and in how many it is the same
ASKED = "as it is asked"


def rows(chart: Chart) -> list[Finding]:
    return chart.findings


def left_out(chart: Chart) -> int:
    return 0


def page_height(chart: Chart) -> int:
    around = PAGE.body * HEAD + PAGE.row + PAGE.small * FOOT
    return round(height_on_page(groups_of(chart.findings[0].panel)) + around)


def described(chart: Chart, form: Format) -> str:
    """The headline, then each group: how far its values reach, and which of it turn the answer."""
    finding = chart.findings[0]
    if finding.panel is None:
        return f"{capitalised(chart.measure.label)}. {nothing(finding)}"
    shown, ends = effect(finding)
    told = [f"{capitalised(ASKED)}: {shown} ({ends}), {finding.verdict}"]
    told += [_described(one, finding) for one in groups_of(finding.panel)]
    return f"{panel_title(finding.panel)}. {'; '.join(told)}."


def nothing(finding: Finding) -> str:
    """Why there is nothing to draw."""
    if finding.refused is None:
        return "It was not asked in other ways."
    return f"There is no number to ask again: {refusal_said(finding)}."


def _described(group: Group, finding: Finding) -> str:
    values = [one.value for one in group.choices if one.value is not None]
    if not values:
        return f"{group.name}: no number"
    reach = " to ".join(_shown(end, finding) for end in (min(values), max(values)))
    turned = [
        f"{way_short(one)} {_shown(one.value, finding) if one.value is not None else 'no number'}, "
        f"{one.verdict}"
        for one in group.turned
    ]
    same = f"the same in {len(group.choices) - len(turned)} of {len(group.choices)}"
    return f"{group.name}: {reach}, {same}{''.join(f', {one}' for one in turned)}"


def _shown(value: float, finding: Finding) -> str:
    return numbers.points(value) if finding.kind == "share" else numbers.percent(value)


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """The headline's row, then each group with its lines, and in how many it is the same."""
    finding = chart.findings[0]
    if finding.panel is None or finding.effect is None:
        _sentence(canvas, nothing(finding), box)
        return
    sizes = canvas.sizes
    top, bottom = box.top + sizes.body * HEAD, box.top + box.height - sizes.small * FOOT
    own_height = sizes.row * 0.8
    groups = placed(groups_of(finding.panel), top + own_height, bottom, canvas)
    names, counts = box.width * NAMES, box.width * COUNTS
    axes = canvas.axes(box.left + names, top, box.width - names - counts - sizes.body, bottom - top)
    axes.set_ylim(bottom, top)
    axes.set_yticks([])
    with canvas.step(1):
        draw_frame(canvas, axes, finding, finding.panel)
        _names(canvas, groups, box, top + own_height / 2, names - sizes.body)
    with canvas.step(2):
        _own(canvas, axes, finding, box, top + own_height / 2, counts)
        _legend(canvas, finding, finding.panel, box)
    with canvas.step(3):
        for one in groups:
            draw_lines(canvas, axes, one, finding)
    with canvas.step(4):
        for one in groups:
            _count(canvas, one, box.left + box.width - counts, counts)


def _sentence(canvas: Canvas, words: str, box: Box) -> None:
    """What stands where there is nothing to draw, on two lines if need be."""
    size = canvas.sizes.body
    for at, line_ in enumerate(canvas.wrapped(words, size, "Medium", box.width, 2)):
        canvas.sentence(line_, box.left, box.top + at * size * 1.2)


def _own(canvas: Canvas, axes: Axes, finding: Finding, box: Box, y: float, counts: float) -> None:
    """The headline as it is asked, drawn and written."""
    sizes = canvas.sizes
    draw_row(canvas, axes, change_of(finding).span, y, finding.verdict, 1.5)
    shown, ends = effect(finding)
    left = box.left + box.width - counts
    canvas.text(left, y, shown, sizes.body, "ExtraBold", vertical="center_baseline")
    after = left + canvas.text_width(shown, sizes.body, "ExtraBold") + sizes.small * 0.6
    said, size = canvas.fit(ends, sizes.small, "Medium", box.left + box.width - after)
    canvas.text(after, y, said, size, colour=canvas.theme.muted, vertical="center_baseline")


def _names(canvas: Canvas, groups: list[Rows], box: Box, own: float, room: float) -> None:
    sizes = canvas.sizes
    said, size = canvas.fit(ASKED, sizes.body, "ExtraBold", room)
    canvas.text(box.left, own, said, size, "ExtraBold", vertical="center_baseline")
    for one in groups:
        said, size = canvas.fit(one.group.name, sizes.body, "Medium", room)
        y = one.top + one.height / 2
        canvas.text(box.left, y, said, size, vertical="center_baseline")


def _count(canvas: Canvas, rows_: Rows, left: float, room: float) -> None:
    """'9 of 10', and those that turn it, by name as far as there is room."""
    sizes, group = canvas.sizes, rows_.group
    y = rows_.top + rows_.height / 2
    shown = f"{len(group.choices) - len(group.turned)} of {len(group.choices)}"
    canvas.text(left, y, shown, sizes.small, "SemiBold", vertical="center_baseline")
    if not group.turned:
        return
    after = canvas.text_width(shown, sizes.small, "SemiBold") + sizes.small * 0.6
    names = _turning(canvas, [way_short(one) for one in group.turned], room - after)
    said, size = canvas.fit(names, sizes.small, "Medium", room - after)
    colour = canvas.theme.muted
    canvas.text(left + after, y, said, size, colour=colour, vertical="center_baseline")


def _turning(canvas: Canvas, names: list[str], room: float) -> str:
    """'not Quillport, Tolmere', or 'not Quillport and 2 more' where all of them have no room."""
    said = [f"not {', '.join(names)}"]
    said += [
        f"not {', '.join(names[:kept])} and {len(names) - kept} more"
        for kept in range(len(names) - 1, 0, -1)
    ]
    return next(
        (one for one in said if canvas.text_width(one, canvas.sizes.small) <= room), said[-1]
    )


def _legend(canvas: Canvas, finding: Finding, panel: Panel, box: Box) -> None:
    """The verdicts that are drawn, in their colours; what is drawn, at the right."""
    sizes, x = canvas.sizes, box.left
    y = box.top + sizes.body
    there = {finding.verdict, *(one.verdict for one in panel.choices if not one.refused)}
    order: tuple[Verdict, ...] = ("changed", "held", "can't tell")
    for verdict in (each for each in order if each in there):
        colour, solid = coloured(canvas.theme, verdict)
        key(canvas, x + sizes.mark * 1.5, y - sizes.small * 0.34, colour, solid, shape="D")
        x += sizes.mark * 3.4
        said = verdict.replace("'", "’")
        canvas.text(x, y, said, sizes.small, "SemiBold", colour)
        x += canvas.text_width(said, sizes.small, "SemiBold") + sizes.body
    right = box.left + box.width
    interval = heading_of([finding])
    for words in (f"change, with {interval}; margin shaded", f"change, with {interval}", interval):
        if canvas.text_width(words, sizes.small) <= right - x:
            canvas.text(right, y, words, sizes.small, colour=canvas.theme.muted, align="right")
            return
