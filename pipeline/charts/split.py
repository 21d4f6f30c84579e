"""A change split in two: from before, by who did what, by the rates themselves, to after."""

from __future__ import annotations

from typing import Any

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, font, points
from pipeline.charts.panel import View
from pipeline.wording import numbers

STEPS = ("before", "who did what", "the rates themselves", "after")


def draw_split(canvas: Canvas, rows: list[View], box: Box) -> None:
    """`rows` are the whole change, 'mix' and 'rates', with `decimals`: a stair from left to right.

    Bars begin where the step before ended; their intervals are drawn from there.
    """
    sizes, theme = canvas.sizes, canvas.theme
    whole, mix, rates = (
        next(r for r in rows if r["about"] == n) for n in ("change", "mix", "rates")
    )
    decimals = whole["decimals"]
    axes = canvas.axes(
        box.left, box.top + sizes.body, box.width, box.height - sizes.body - sizes.body * 1.9
    )
    start, end = whole["a"]["value"], whole["b"]["value"]
    levels = [start, start, start + (mix["difference"] or 0.0), end]
    ends = [start, end, *_interval(mix, start), *_interval(rates, levels[2])]
    spread = (max(ends) - min(ends)) or 1.0
    axes.set_xlim(-0.5, 3.5)
    axes.set_ylim(min(ends) - 0.35 * spread, max(ends) + 0.35 * spread)
    axes.set_yticks([])
    for at, (value, colour) in ((0, (start, theme.first)), (3, (end, theme.second))):
        axes.plot([at - 0.3, at + 0.3], [value, value], color=colour, linewidth=points(sizes.mark))
        _write(canvas, axes, at, value, numbers.shown(value, decimals), colour)
    for at, row in ((1, mix), (2, rates)):
        _step(canvas, axes, at, row, levels[at], decimals)
    for at in range(3):
        level = (start, levels[2], end)[at]
        axes.plot(
            [at + 0.3, at + 0.7],
            [level, level],
            color=theme.muted,
            linewidth=2,
            linestyle=(0, (3, 3)),
        )
    style = {"fontproperties": font("SemiBold"), "color": theme.ink}
    axes.set_xticks(range(4), STEPS, **style)
    for label in axes.get_xticklabels():
        label.set_fontsize(points(sizes.small))


def _interval(row: View, start: float) -> list[float]:
    if row["refused"]:
        return []
    return [start + row["difference_low"], start + row["difference_high"]]


def _step(canvas: Canvas, axes: Any, at: int, row: View, start: float, decimals: int) -> None:
    theme, sizes = canvas.theme, canvas.sizes
    if row["refused"]:
        _write(canvas, axes, at, start, "too little to say", theme.muted)
        return
    size = row["difference"]
    moved = row["verdict"] == "changed"
    axes.bar(
        [at],
        [size],
        bottom=start,
        width=0.6,
        color=theme.second if moved else theme.ground,
        edgecolor=theme.second if moved else theme.muted,
        linewidth=points(sizes.mark * 0.35),
    )
    axes.plot([at, at], _interval(row, start), color=theme.ink, linewidth=points(sizes.mark * 0.35))
    top = max(*_interval(row, start), start)
    words = numbers.points(size) if row["kind"] == "share" else numbers.shown(size, decimals, True)
    _write(canvas, axes, at, top, words, theme.ink)


def _write(canvas: Canvas, axes: Any, at: float, value: float, words: str, colour: str) -> None:
    label = axes.annotate(
        words,
        (at, value),
        xytext=(0, points(canvas.sizes.mark * 1.2)),
        textcoords="offset points",
        fontproperties=font("ExtraBold"),
        fontsize=points(canvas.sizes.number),
        color=colour,
        ha="center",
        va="bottom",
    )
    label.set_fontfeatures(["tnum"])
