"""The lines of a headline asked in other ways: where each group stands, how far they reach."""

from __future__ import annotations

from typing import NamedTuple

from matplotlib.axes import Axes

from pipeline.charts.canvas import Canvas
from pipeline.charts.marks import few_ticks, line, mark, style_ticks
from pipeline.charts.theme import PAGE, Sizes, Theme
from pipeline.contracts.codes import Verdict
from pipeline.contracts.finding import Finding
from pipeline.contracts.panel import Choice, Panel
from pipeline.contracts.parts import Span
from pipeline.wording.other_ways import Group
from pipeline.wording.scales import change_of

GAP = 0.5  # lines of body text between two groups
LEAST_ROW = 1.5  # lines of small text that a group is high at least
ON_PAGE = 13  # pixels of a line of the vector chart
WIDER = 3.0  # an interval is drawn no further out than so many times the headline's own


class Rows(NamedTuple):
    """A group of ways, and where its first row begins and its last ends, in pixels."""

    group: Group
    top: float
    height: float


def gaps(groups: list[Group], sizes: Sizes) -> float:
    """Pixels between the groups, and below the last."""
    return sizes.body * GAP * (len(groups) + 0.5)


def height_on_page(groups: list[Group]) -> float:
    """Pixels of the groups in the vector chart."""
    least = PAGE.small * LEAST_ROW
    return sum(max(least, ON_PAGE * len(one.choices)) for one in groups) + gaps(groups, PAGE)


def placed(groups: list[Group], top: float, bottom: float, canvas: Canvas) -> list[Rows]:
    """Groups below each other, each as high as it has lines but for the least that words need."""
    sizes = canvas.sizes
    gap, least = sizes.body * GAP, sizes.small * LEAST_ROW
    room = bottom - top - gaps(groups, sizes)
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


def draw_frame(canvas: Canvas, axes: Axes, finding: Finding, panel: Panel) -> None:
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


def coloured(theme: Theme, verdict: Verdict) -> tuple[str, bool]:
    """(colour, solid): what moved, what held, and hollow what can't be told."""
    if verdict == "changed":
        return theme.second, True
    return (theme.first, True) if verdict == "held" else (theme.muted, False)


def draw_row(
    canvas: Canvas, axes: Axes, told: Span, y: float, verdict: Verdict, size: float
) -> None:
    """One line with its mark, in the colour of its verdict."""
    colour, solid = coloured(canvas.theme, verdict)
    line(canvas, axes, [told.low, told.high], [y, y], colour, width=0.3 * size)
    mark(canvas, axes, told.value, y, colour, solid=solid, shape="D", size=size)


def draw_lines(canvas: Canvas, axes: Axes, rows_: Rows, finding: Finding) -> None:
    """A line a way; a cross at no change for one that has no number."""
    each = rows_.height / len(rows_.group.choices)
    size = min(1.2, 0.62 * each / canvas.sizes.mark)
    for at, choice in enumerate(rows_.group.choices):
        y = rows_.top + each * (at + 0.5)
        told = _span(choice, finding)
        if told:
            draw_row(canvas, axes, told, y, choice.verdict, size)
        else:
            mark(canvas, axes, 0.0, y, canvas.theme.muted, solid=False, shape="x", size=size)
