"""mix: a change split in two: from before, by who did what, by the rates themselves, to after."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from matplotlib.axes import Axes

from pipeline.charts.alt_text import describe_nothing, describe_rows
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.faces import font, points
from pipeline.charts.marks import dress, line
from pipeline.charts.rows import rows_of
from pipeline.charts.series import TALL
from pipeline.contracts.finding import Change, Finding, Mix, Rates
from pipeline.wording import numbers
from pipeline.wording.refusals import refused_in_short

if TYPE_CHECKING:
    from pipeline.config.project import Format

STEPS = ("before", "who did what", "the rates", "after")
STEPS_UNROUNDED = "steps before rounding"
NOTHING = "Too little to split."


class Stair(NamedTuple):
    """The whole change and its two parts."""

    whole: Change
    mix: Mix
    rates: Rates


def rows(chart: Chart) -> list[Finding]:
    """The whole and its parts; the groups are rows of the table."""
    return [*(_stair(chart) or ())]


def _stair(chart: Chart) -> Stair | None:
    """None of a beat without a ball in the windows, which has no findings."""
    if not chart.findings:
        return None
    (whole,) = [f for f in chart.findings if isinstance(f, Change) and f.cell == "all"]
    (mix,) = [f for f in chart.findings if isinstance(f, Mix)]
    (rates,) = [f for f in chart.findings if isinstance(f, Rates)]
    return Stair(whole, mix, rates)


def left_out(chart: Chart) -> int:
    return 0


def page_height(chart: Chart) -> int:
    return TALL


def described(chart: Chart, form: Format) -> str:
    stair = _stair(chart)
    if stair is None:
        return describe_nothing(chart.measure, NOTHING)
    return describe_rows(
        chart.measure, rows_of(stair, chart.beat, chart.measure, form), stair.whole.sides
    )


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """A stair from left to right.

    Bars begin where the step before ended; their intervals are drawn from there.
    """
    stair = _stair(chart)
    if stair is None or stair.whole.a.value is None or stair.whole.b.value is None:
        canvas.sentence(NOTHING, box.left, box.top)
    else:
        whole = stair.whole.a.value, stair.whole.b.value
        _draw_stair(canvas, stair.mix, stair.rates, whole, chart.measure.decimals, box)


def _draw_stair(
    canvas: Canvas,
    mix: Mix,
    rates: Rates,
    of_whole: tuple[float, float],
    decimals: int,
    box: Box,
) -> None:
    sizes, theme = canvas.sizes, canvas.theme
    start, end = of_whole
    middle = start + (mix.effect.difference.value if mix.effect else 0.0)
    ends = [start, end, middle, *_interval(mix, start), *_interval(rates, middle)]
    spread = (max(ends) - min(ends)) or 1.0
    with canvas.step(1):
        axes = canvas.axes(box.left, box.top, box.width, box.height - sizes.body * 1.9)
        axes.set_xlim(-0.5, 3.5)
        axes.set_ylim(min(ends) - 0.1 * spread, max(ends) + 0.35 * spread)
        axes.set_yticks([])
        axes.set_xticks(range(4), STEPS)
        dress(canvas, axes.get_xticklabels())
    for step, at, value, colour in ((2, 0, start, theme.first), (3, 3, end, theme.second)):
        with canvas.step(step):
            line(canvas, axes, [at - 0.3, at + 0.3], [value, value], colour, width=1.0)
            _write(canvas, axes, at, value, numbers.shown(value, decimals), colour)
    with canvas.step(4):
        _draw_part(canvas, axes, 1, mix, start, decimals)
        _draw_part(canvas, axes, 2, rates, middle, decimals)
        for at, level in enumerate((start, middle, end)):
            line(
                canvas,
                axes,
                [at + 0.3, at + 0.7],
                [level, level],
                theme.muted,
                width=0.15,
                dash=(0, (3, 3)),
            )
        if not adds_up(of_whole, mix, rates, decimals):
            y, size = box.top + sizes.small, sizes.small
            canvas.text(box.right, y, STEPS_UNROUNDED, size, colour=theme.muted, align="right")


def adds_up(of_whole: tuple[float, float], mix: Mix, rates: Rates, decimals: int) -> bool:
    """Whether the two steps, as written, lead from the one value to the other."""
    if mix.refused or rates.refused:
        return True
    of_step = 1 if mix.kind == "share" else decimals
    steps = [numbers.rounded(part.told.difference.value, of_step) for part in (mix, rates)]
    start, end = (numbers.rounded(value, decimals) for value in of_whole)
    return start + sum(steps) == end


def _interval(part: Mix | Rates, start: float) -> list[float]:
    if part.refused:
        return []
    difference = part.told.difference
    return [start + difference.low, start + difference.high]


def _draw_part(
    canvas: Canvas, axes: Axes, at: int, part: Mix | Rates, start: float, decimals: int
) -> None:
    theme, sizes = canvas.theme, canvas.sizes
    if part.refused:
        why = refused_in_short(part).removesuffix(" to say")
        _write(canvas, axes, at, start, why, theme.muted)
        return
    size = part.told.difference.value
    moved = part.verdict == "changed"
    axes.bar(
        [at],
        [size],
        bottom=start,
        width=0.6,
        color=theme.second if moved else theme.ground,
        edgecolor=theme.second if moved else theme.muted,
        linewidth=points(sizes.mark * 0.35),
    )
    line(canvas, axes, [at, at], _interval(part, start), theme.ink, width=0.35)
    top = max(*_interval(part, start), start)
    share = part.kind == "share"
    words = numbers.points(size) if share else numbers.shown(size, decimals, True)
    _write(canvas, axes, at, top, words, theme.ink)


def _write(canvas: Canvas, axes: Axes, at: float, value: float, words: str, colour: str) -> None:
    size = canvas.fitted(words, canvas.sizes.number, "ExtraBold", 400)
    label = axes.annotate(
        words,
        (at, value),
        xytext=(0, points(canvas.sizes.mark * 1.2)),
        textcoords="offset points",
        fontproperties=font("ExtraBold"),
        fontsize=points(size),
        color=colour,
        ha="center",
        va="bottom",
    )
    label.set_fontfeatures(["tnum"])
