"""A measure along the innings: both windows, band by band, with intervals."""

from __future__ import annotations

from typing import Any

from matplotlib.ticker import MaxNLocator

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, font, points
from pipeline.charts.panel import View, legend
from pipeline.wording import numbers

APART = 0.13  # of a band, between the two windows' marks


def draw_profile(canvas: Canvas, rows: list[View], names: list[str], box: Box) -> None:
    """`rows` are the bands' findings in order, with `decimals`."""
    sizes, theme = canvas.sizes, canvas.theme
    head, below = sizes.body * 1.8, sizes.small * 1.9
    room = canvas.text_width("00.0", sizes.small) + 24
    axes = canvas.axes(box.left + room, box.top + head, box.width - room, box.height - head - below)
    ends = [
        row[side][key]
        for row in rows
        for side in ("a", "b")
        for key in ("low", "high", "value")
        if row[side][key] is not None
    ] or [0.0, 1.0]
    spread = (max(ends) - min(ends)) or 1.0
    axes.set_xlim(-0.5, len(rows) - 0.5)
    axes.set_ylim(min(ends) - 0.08 * spread, max(ends) + 0.08 * spread)
    axes.yaxis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
    axes.grid(axis="y", color=theme.hairline, linewidth=2)
    axes.set_axisbelow(True)
    for side, shift, colour in (("a", -APART, theme.first), ("b", APART, theme.second)):
        _draw_window(canvas, axes, rows, side, shift, colour)
    _ticks(canvas, axes, names)
    legend(canvas, tuple(rows[0]["sides"]), box.left + room, box.top + sizes.body)


def _draw_window(
    canvas: Canvas, axes: Any, rows: list[View], side: str, shift: float, colour: str
) -> None:
    sizes, theme = canvas.sizes, canvas.theme
    told = [
        (at + shift, row[side]) for at, row in enumerate(rows) if row[side]["value"] is not None
    ]
    axes.plot(
        [at for at, _ in told],
        [value["value"] for _, value in told],
        color=colour,
        linewidth=points(sizes.mark * 0.35),
        linestyle=(0, (3, 2)) if side == "a" else "-",
    )
    for at, value in told:
        if value["low"] is not None:
            ends = [value["low"], value["high"]]
            axes.plot([at, at], ends, color=colour, linewidth=points(sizes.mark * 0.35))
        axes.plot(
            [at],
            [value["value"]],
            marker="o",
            markersize=points(sizes.mark * 1.7),
            markerfacecolor=theme.ground if side == "a" else colour,
            markeredgecolor=colour,
            markeredgewidth=points(sizes.mark * 0.4),
            zorder=3,
        )


def _ticks(canvas: Canvas, axes: Any, names: list[str]) -> None:
    low, high = axes.get_ylim()
    ticks = [tick for tick in axes.get_yticks() if low <= tick <= high]
    style = {"fontproperties": font("Medium"), "color": canvas.theme.muted}
    decimals = 0 if all(float(tick).is_integer() for tick in ticks) else 1
    axes.set_yticks(ticks, [numbers.shown(tick, decimals) for tick in ticks], **style)
    width = max(canvas.text_width(name, canvas.sizes.small) for name in names) * 1.15
    step = max(1, int(-(-width // (axes.get_window_extent(canvas.renderer).width / len(names)))))
    shown = range(0, len(names), step)
    axes.set_xticks(list(shown), [names[at] for at in shown], **style)
    for label in [*axes.get_xticklabels(), *axes.get_yticklabels()]:
        label.set_fontsize(points(canvas.sizes.small))
        label.set_fontfeatures(["tnum"])
