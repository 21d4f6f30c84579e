"""A headline asked in other ways: its own row on top, under it a line a way, by kind of way."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.marks import few_ticks, key, line, mark, style_ticks
from pipeline.charts.theme import PAGE, Theme
from pipeline.charts.words import effect
from pipeline.contracts.codes import Verdict
from pipeline.contracts.finding import Finding
from pipeline.contracts.panel import Choice, Panel
from pipeline.contracts.parts import Span
from pipeline.text import capitalised
from pipeline.wording import numbers
from pipeline.wording.confidence import heading_of
from pipeline.wording.panel import Group, groups_of, panel_title, way_short
from pipeline.wording.refusals import refused_in_short
from pipeline.wording.scales import change_of

if TYPE_CHECKING:
    from pipeline.config.project import Format

HEAD, FOOT = 2.0, 1.9  # lines of body and small text above and below the rows
NAMES, COUNTS = 0.25, 0.33  # of the width: what is left out, and in how many it is the same
GAP = 0.5  # lines of body text between two groups
LEAST_ROW = 1.5  # lines of small text that a group is high at least
ON_PAGE = 13  # pixels of a line of the vector chart
WIDER = 3.0  # an interval is drawn no further out than so many times the headline's own
ASKED = "as it is asked"


class Rows(NamedTuple):
    """A group of ways, and where its first row begins and its last ends, in pixels."""

    group: Group
    top: float
    height: float


def rows(chart: Chart) -> list[Finding]:
    return chart.findings


def left_out(chart: Chart) -> int:
    return 0


def page_height(chart: Chart) -> int:
    groups = groups_of(chart.findings[0].panel)
    least = PAGE.small * LEAST_ROW
    lines = sum(max(least, ON_PAGE * len(one.choices)) for one in groups)
    around = PAGE.body * (HEAD + GAP * (len(groups) + 0.5)) + PAGE.row + PAGE.small * FOOT
    return round(lines + around)


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
    return f"There is no number to ask again: {refused_in_short(finding)}."


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
        canvas.sentence(nothing(finding), box.left, box.top)
        return
    sizes = canvas.sizes
    top, bottom = box.top + sizes.body * HEAD, box.top + box.height - sizes.small * FOOT
    own_height = sizes.row * 0.8
    placed = _placed(groups_of(finding.panel), top + own_height, bottom, canvas)
    names, counts = box.width * NAMES, box.width * COUNTS
    axes = canvas.axes(box.left + names, top, box.width - names - counts - sizes.body, bottom - top)
    axes.set_ylim(bottom, top)
    axes.set_yticks([])
    with canvas.step(1):
        _frame(canvas, axes, finding, finding.panel)
        _names(canvas, placed, box, top + own_height / 2, names - sizes.body)
    with canvas.step(2):
        _own(canvas, axes, finding, box, top + own_height / 2, counts)
        _legend(canvas, finding, finding.panel, box)
    with canvas.step(3):
        for one in placed:
            _lines(canvas, axes, one, finding)
    with canvas.step(4):
        for one in placed:
            _count(canvas, one, box.left + box.width - counts, counts)


def _placed(groups: list[Group], top: float, bottom: float, canvas: Canvas) -> list[Rows]:
    """Groups below each other, each as high as it has lines but for the least that words need."""
    sizes = canvas.sizes
    gap, least = sizes.body * GAP, sizes.small * LEAST_ROW
    room = bottom - top - gap * (len(groups) + 0.5)
    low: set[str] = set()
    while True:
        lines = sum(len(one.choices) for one in groups if one.name not in low)
        each = max(room - least * len(low), 0.0) / lines if lines else 0.0
        more = {one.name for one in groups if len(one.choices) * each < least} - low
        if not more:
            break
        low |= more
    found, y = [], top
    for one in groups:
        y += gap
        height = least if one.name in low else each * len(one.choices)
        found.append(Rows(one, y, height))
        y += height
    return found


def _frame(canvas: Canvas, axes: Axes, finding: Finding, panel: Panel) -> None:
    """Limits, ticks, the line of no change and the margin."""
    low, high = _limits(finding, panel)
    pad = (high - low) * 0.04
    axes.set_xlim(low - pad, high + pad)
    axes.set_xticks(few_ticks(low, high))
    style_ticks(canvas, axes, "{} pts" if finding.kind == "share" else "{}%")
    edge = finding.margin.size
    axes.axvspan(-edge, edge, color=canvas.theme.hairline, alpha=0.5, linewidth=0, zorder=0)
    axes.axvline(0, color=canvas.theme.ink, linewidth=2)


def _limits(finding: Finding, panel: Panel) -> tuple[float, float]:
    """Every value has its place, and every end that is not far beyond the headline's own."""
    own = change_of(finding).span
    reach = WIDER * max(own.half, 1e-9)
    spans = [told for choice in panel.choices if (told := _span(choice, finding))]
    values = [0.0, own.low, own.high, *(one.value for one in spans)]
    lows = [max(one.low, own.value - reach) for one in spans]
    highs = [min(one.high, own.value + reach) for one in spans]
    return min([*values, *lows]), max([*values, *highs])


def _span(choice: Choice, finding: Finding) -> Span | None:
    """A way's number as it is drawn: in points, or in per cent."""
    if choice.value is None or choice.low is None or choice.high is None:
        return None
    times = 1.0 if finding.kind == "share" else 100.0
    return Span(value=choice.value * times, low=choice.low * times, high=choice.high * times)


def _coloured(theme: Theme, verdict: Verdict) -> tuple[str, bool]:
    """(colour, solid): what moved, what held, and hollow what can't be told."""
    if verdict == "changed":
        return theme.second, True
    return (theme.first, True) if verdict == "held" else (theme.muted, False)


def _row(canvas: Canvas, axes: Axes, told: Span, y: float, verdict: Verdict, size: float) -> None:
    colour, solid = _coloured(canvas.theme, verdict)
    line(canvas, axes, [told.low, told.high], [y, y], colour, width=0.3 * size)
    mark(canvas, axes, told.value, y, colour, solid=solid, shape="D", size=size)


def _own(canvas: Canvas, axes: Axes, finding: Finding, box: Box, y: float, counts: float) -> None:
    """The headline as it is asked, drawn and written."""
    sizes = canvas.sizes
    _row(canvas, axes, change_of(finding).span, y, finding.verdict, 1.5)
    shown, ends = effect(finding)
    left = box.left + box.width - counts
    canvas.text(left, y, shown, sizes.body, "ExtraBold", vertical="center_baseline")
    after = left + canvas.text_width(shown, sizes.body, "ExtraBold") + sizes.small * 0.6
    said, size = canvas.fit(ends, sizes.small, "Medium", box.left + box.width - after)
    canvas.text(after, y, said, size, colour=canvas.theme.muted, vertical="center_baseline")


def _lines(canvas: Canvas, axes: Axes, rows_: Rows, finding: Finding) -> None:
    """A line a way; a cross at no change for one that has no number."""
    each = rows_.height / len(rows_.group.choices)
    size = min(1.2, 0.62 * each / canvas.sizes.mark)
    for at, choice in enumerate(rows_.group.choices):
        y = rows_.top + each * (at + 0.5)
        told = _span(choice, finding)
        if told:
            _row(canvas, axes, told, y, choice.verdict, size)
        else:
            mark(canvas, axes, 0.0, y, canvas.theme.muted, solid=False, shape="x", size=size)


def _names(canvas: Canvas, placed: list[Rows], box: Box, own: float, room: float) -> None:
    sizes = canvas.sizes
    said, size = canvas.fit(ASKED, sizes.body, "ExtraBold", room)
    canvas.text(box.left, own, said, size, "ExtraBold", vertical="center_baseline")
    for one in placed:
        said, size = canvas.fit(one.group.name, sizes.body, "Medium", room)
        y = one.top + one.height / 2
        canvas.text(box.left, y, said, size, vertical="center_baseline")


def _count(canvas: Canvas, rows_: Rows, left: float, room: float) -> None:
    """'9 of 10', and the names of those that turn it as far as there is room."""
    sizes, group = canvas.sizes, rows_.group
    y = rows_.top + rows_.height / 2
    shown = f"{len(group.choices) - len(group.turned)} of {len(group.choices)}"
    canvas.text(left, y, shown, sizes.small, "SemiBold", vertical="center_baseline")
    if not group.turned:
        return
    after = canvas.text_width(shown, sizes.small, "SemiBold") + sizes.small * 0.6
    names = "not " + ", ".join(map(way_short, group.turned))
    said, size = canvas.fit(names, sizes.small, "Medium", room - after)
    colour = canvas.theme.muted
    canvas.text(left + after, y, said, size, colour=colour, vertical="center_baseline")


def _legend(canvas: Canvas, finding: Finding, panel: Panel, box: Box) -> None:
    """The verdicts that are drawn, in their colours; what is drawn, at the right."""
    sizes, x = canvas.sizes, box.left
    y = box.top + sizes.body
    there = {finding.verdict, *(one.verdict for one in panel.choices if not one.refused)}
    order: tuple[Verdict, ...] = ("changed", "held", "can't tell")
    for verdict in (each for each in order if each in there):
        colour, solid = _coloured(canvas.theme, verdict)
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
