"""A measure along the innings: both windows, band by band, with intervals."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.marks import View, dress, legend, line, mark, thinned, value_ticks
from pipeline.wording import numbers

APART = 0.13  # of a band, between the two windows' marks


def draw_profile(canvas: Canvas, rows: list[View], names: list[str], box: Box) -> None:
    """`rows` are the bands' findings in order, with `decimals`."""
    sizes, theme = canvas.sizes, canvas.theme
    head, below = sizes.body * 1.8, sizes.small * 1.9
    ends = [
        row[side][key]
        for row in rows
        for side in ("a", "b")
        for key in ("low", "high", "value")
        if row[side][key] is not None
    ] or [0.0, 1.0]
    room = max(canvas.text_width(numbers.shown(end, 1), sizes.small) for end in ends) + 36
    spread = (max(ends) - min(ends)) or 1.0
    with canvas.step(1):
        axes = canvas.axes(
            box.left + room, box.top + head, box.width - room, box.height - head - below
        )
        axes.set_xlim(-0.5, len(rows) - 0.5)
        axes.set_ylim(min(ends) - 0.08 * spread, max(ends) + 0.08 * spread)
        axes.yaxis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
        axes.grid(axis="y", color=theme.hairline, linewidth=2)
        axes.set_axisbelow(True)
        _ticks(canvas, axes, names)
        sides = tuple(rows[0]["sides"])
        legend(canvas, sides, box.left + room, box.top + sizes.body, box.width * 0.6)
    for step, side, shift, colour in ((2, "a", -APART, theme.first), (3, "b", APART, theme.second)):
        with canvas.step(step):
            _draw_window(canvas, axes, rows, side, shift, colour)
    with canvas.step(4):
        _mark_changed(canvas, axes, rows)


def _draw_window(
    canvas: Canvas, axes: Axes, rows: list[View], side: str, shift: float, colour: str
) -> None:
    every = ((at + shift, row[side]) for at, row in enumerate(rows))
    told = [(at, value) for at, value in every if value["value"] is not None]
    dash = (0, (3, 2)) if side == "a" else "-"
    places, values = [at for at, _ in told], [value["value"] for _, value in told]
    line(canvas, axes, places, values, colour, width=0.35, dash=dash)
    for at, value in told:
        if value["low"] is not None:
            line(canvas, axes, [at, at], [value["low"], value["high"]], colour, width=0.35)
        mark(canvas, axes, at, value["value"], colour, solid=side == "b", size=1.7)


def _mark_changed(canvas: Canvas, axes: Axes, rows: list[View]) -> None:
    """A bar under the bands that changed: the eye need not judge two intervals."""
    low = axes.get_ylim()[0]
    for at, row in enumerate(rows):
        if row["verdict"] == "changed":
            line(canvas, axes, [at - 0.35, at + 0.35], [low, low], canvas.theme.second, width=1.0)


def _ticks(canvas: Canvas, axes: Axes, names: list[str]) -> None:
    ticks = value_ticks(canvas, axes)
    decimals = 0 if all(float(tick).is_integer() for tick in ticks) else 1
    axes.set_yticks(ticks, [numbers.shown(tick, decimals) for tick in ticks])
    each = axes.get_window_extent(canvas.renderer).width / len(names)
    kept = thinned(canvas, [(at + 0.5) * each for at in range(len(names))], names)
    axes.set_xticks(kept, [names[at] for at in kept])
    dress(canvas, [*axes.get_xticklabels(), *axes.get_yticklabels()])
