"""players: one by one, each change as it came out, and drawn in towards that of their kind."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from matplotlib.axes import Axes

from pipeline.charts.alt_text import describe_nothing, describe_rows
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.comparison import height_of
from pipeline.charts.marks import few_ticks, line, mark, style_ticks
from pipeline.charts.rows import rows_of
from pipeline.charts.theme import PAGE
from pipeline.contracts.finding import Player
from pipeline.contracts.parts import Shrunk
from pipeline.wording.names import drawn_shown

if TYPE_CHECKING:
    from pipeline.config.project import Format

NOBODY = "Nobody has enough in both windows."
MOST_NAMES = 12  # more are left to the table: the two ends of the list are drawn
NAMES = 0.30  # of the width, at most
MEAN_TICK = 0.32  # of a row, above and below
LOW_ROW = 40  # pixels of a player's row on a page
KEY = (
    "hollow: as it came out · solid: luck allowed for, 95% · coloured: moved · "
    "tick: mean of the kind · bold: apart"
)


class Named(NamedTuple):
    """One player as drawn: the change as it came out, and with luck allowed for."""

    name: str
    change: float
    shrunk: Shrunk


def rows(chart: Chart) -> list[Player]:
    """The players drawn, from the largest rise to the largest fall; both ends of a long list."""
    named = [(f.shrunk, f) for f in chart.findings if isinstance(f, Player) and f.shrunk]
    told = [f for _, f in sorted(named, key=lambda pair: (-pair[0].change, pair[1].id))]
    if len(told) <= MOST_NAMES:
        return told
    half = MOST_NAMES // 2
    return told[:half] + told[-half:]


def left_out(chart: Chart) -> int:
    """Players who are in the table alone."""
    everyone = [finding for finding in chart.findings if isinstance(finding, Player)]
    return len(everyone) - len(rows(chart))


def page_height(chart: Chart) -> int:
    count = len(rows(chart))
    if not count:
        return height_of(0)
    return round(PAGE.body * 1.7 + LOW_ROW * count + PAGE.small * 1.9)


def described(chart: Chart, form: Format) -> str:
    told = rows(chart)
    if not told:
        return describe_nothing(chart.measure, NOBODY)
    return describe_rows(
        chart.measure, rows_of(told, chart.beat, chart.measure, form), told[0].sides
    )


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """Hollow as it came out, solid drawn in, with its interval."""
    named = [
        Named(next(iter(player.values.values())), player.told.change.value, player.shrunk)
        for player in rows(chart)
        if player.shrunk
    ]
    if named:
        _draw_names(canvas, named, box)
    else:
        canvas.sentence(NOBODY, box.left, box.top)


def _draw_names(canvas: Canvas, named: list[Named], box: Box) -> None:
    sizes, theme = canvas.sizes, canvas.theme
    head, foot = sizes.body * 1.5, sizes.small * 1.7
    step = min((box.height - head - foot) / len(named), 2 * sizes.row)
    text = min(sizes.body, step * 0.86)
    said = [canvas.fit(one.name, text, "ExtraBold", NAMES * box.width) for one in named]
    name_width = max(canvas.text_width(name, size, "ExtraBold") for name, size in said)
    wide = max(canvas.text_width(_numbers(one), text, "ExtraBold") for one in named)
    left = box.left + name_width + sizes.body
    with canvas.step(1):
        axes = canvas.axes(
            left, box.top + head, box.right - wide - sizes.body - left, step * len(named)
        )
        _axis(canvas, axes, named)
        for at, (one, (name, size)) in enumerate(zip(named, said, strict=True)):
            y = box.top + head + step * (at + 0.5)
            canvas.text(box.left, y, name, size, _weight(one), vertical="center_baseline")
        key, size = canvas.fit(KEY, sizes.small, "Medium", box.width)
        y = box.top + sizes.small
        canvas.text(box.right, y, key, size, colour=theme.muted, align="right")
    with canvas.step(2):
        for at, one in enumerate(named):
            colour = _colour(canvas, one)
            mark(canvas, axes, one.change * 100, at + 0.5, colour, solid=False, size=1.3)
    with canvas.step(3):
        for at, one in enumerate(named):
            _draw_shrunk(canvas, axes, one, at + 0.5)
    with canvas.step(4):
        for at, one in enumerate(named):
            y = box.top + head + step * (at + 0.5)
            canvas.text(
                box.right,
                y,
                _numbers(one),
                text,
                _weight(one),
                align="right",
                vertical="center_baseline",
            )


def _axis(canvas: Canvas, axes: Axes, named: list[Named]) -> None:
    ends = [end for one in named for end in (one.shrunk.low, one.shrunk.high)]
    ends += [end for one in named for end in (one.change, one.shrunk.mean)]
    low, high = min(*ends, 0) * 100, max(*ends, 0) * 100
    pad = (high - low) * 0.05 or 1
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(len(named), 0)
    axes.set_yticks([])
    axes.set_xticks(few_ticks(low, high))
    style_ticks(canvas, axes, "{}%")
    axes.axvline(0, color=canvas.theme.ink, linewidth=2)


def _weight(one: Named) -> str:
    return "ExtraBold" if one.shrunk.apart else "Medium"


def _colour(canvas: Canvas, one: Named) -> str:
    return canvas.theme.second if one.shrunk.moved else canvas.theme.muted


def _numbers(one: Named) -> str:
    return drawn_shown(one.shrunk)


def _draw_shrunk(canvas: Canvas, axes: Axes, one: Named, y: float) -> None:
    """Coloured where it is clear of none; the tick is the mean that 'apart' is clear of."""
    shrunk, colour = one.shrunk, _colour(canvas, one)
    mean = shrunk.mean * 100
    line(canvas, axes, [mean, mean], [y - MEAN_TICK, y + MEAN_TICK], canvas.theme.ink, width=0.25)
    line(canvas, axes, [shrunk.low * 100, shrunk.high * 100], [y, y], colour)
    mark(canvas, axes, shrunk.change * 100, y, colour, solid=True, size=1.3)
