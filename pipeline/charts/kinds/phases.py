"""phases: a measure along the innings: both windows, band by band, with intervals."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from pipeline.charts.alt_text import describe_nothing, describe_rows
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.marks import dress, legend, line, mark, thinned, value_ticks
from pipeline.charts.rows import rows_of
from pipeline.charts.series import TALL, ends_of
from pipeline.contracts.finding import Change
from pipeline.contracts.parts import Side
from pipeline.wording import numbers

if TYPE_CHECKING:
    from pipeline.config.project import Format

NO_BAND = "No band of overs has a ball to compare."
APART = 0.13  # of a band, between the two windows' marks


def rows(chart: Chart) -> list[Change]:
    """The bands in order."""
    return [f for f in chart.findings if isinstance(f, Change) and f.cell != "all"]


def left_out(chart: Chart) -> int:
    return 0


def page_height(chart: Chart) -> int:
    return TALL


def described(chart: Chart, form: Format) -> str:
    bands = rows(chart)
    if not bands:
        return describe_nothing(chart.measure, NO_BAND)
    return describe_rows(
        chart.measure, rows_of(bands, chart.beat, chart.measure, form), bands[0].sides
    )


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """Both windows' values over the bands, joined, each band with its interval."""
    sizes, theme, bands = canvas.sizes, canvas.theme, rows(chart)
    if not bands:
        canvas.sentence(NO_BAND, box.left, box.top)
        return
    head, below = sizes.body * 1.8, sizes.small * 1.9
    ends = ends_of([side for band in bands for side in (band.a, band.b)]) or [0.0, 1.0]
    room = max(canvas.text_width(numbers.shown(end, 1), sizes.small) for end in ends) + 36
    spread = (max(ends) - min(ends)) or 1.0
    with canvas.step(1):
        axes = canvas.axes(
            box.left + room, box.top + head, box.width - room, box.height - head - below
        )
        axes.set_xlim(-0.5, len(bands) - 0.5)
        axes.set_ylim(min(ends) - 0.08 * spread, max(ends) + 0.08 * spread)
        axes.yaxis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
        axes.grid(axis="y", color=theme.hairline, linewidth=2)
        axes.set_axisbelow(True)
        _ticks(canvas, axes, [band.values["band"].replace("-", "–") for band in bands])
        legend(canvas, bands[0].sides, box.left + room, box.top + sizes.body, box.width * 0.6)
    with canvas.step(2):
        _draw_window(canvas, axes, [band.a for band in bands], -APART, theme.first, solid=False)
    with canvas.step(3):
        _draw_window(canvas, axes, [band.b for band in bands], APART, theme.second, solid=True)
    with canvas.step(4):
        _mark_changed(canvas, axes, bands)


def _draw_window(
    canvas: Canvas, axes: Axes, sides: list[Side], shift: float, colour: str, solid: bool
) -> None:
    told = [(at + shift, side.value, side) for at, side in enumerate(sides)]
    known = [(at, value, side) for at, value, side in told if value is not None]
    places, values = [at for at, _, _ in known], [value for _, value, _ in known]
    line(canvas, axes, places, values, colour, width=0.35, dash="-" if solid else (0, (3, 2)))
    for at, value, side in known:
        if side.low is not None and side.high is not None:
            line(canvas, axes, [at, at], [side.low, side.high], colour, width=0.35)
        mark(canvas, axes, at, value, colour, solid=solid, size=1.7)


def _mark_changed(canvas: Canvas, axes: Axes, bands: list[Change]) -> None:
    """A bar under the bands that changed: the eye need not judge two intervals."""
    low = axes.get_ylim()[0]
    for at, band in enumerate(bands):
        if band.verdict == "changed":
            line(canvas, axes, [at - 0.35, at + 0.35], [low, low], canvas.theme.second, width=1.0)


def _ticks(canvas: Canvas, axes: Axes, names: list[str]) -> None:
    ticks = value_ticks(canvas, axes)
    decimals = 0 if all(float(tick).is_integer() for tick in ticks) else 1
    axes.set_yticks(ticks, [numbers.shown(tick, decimals) for tick in ticks])
    each = axes.get_window_extent(canvas.renderer).width / len(names)
    kept = thinned(canvas, [(at + 0.5) * each for at in range(len(names))], names)
    axes.set_xticks(kept, [names[at] for at in kept])
    dress(canvas, [*axes.get_xticklabels(), *axes.get_yticklabels()])
