"""A change split in two: from before, by who did what, by the rates themselves, to after."""

from __future__ import annotations

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, font, points
from pipeline.charts.marks import View, dress, line
from pipeline.wording import numbers

STEPS = ("before", "who did what", "the rates", "after")


def draw_split(canvas: Canvas, rows: list[View], box: Box) -> None:
    """`rows` are the whole change, 'mix' and 'rates', with `decimals`: a stair from left to right.

    Bars begin where the step before ended; their intervals are drawn from there.
    """
    sizes, theme = canvas.sizes, canvas.theme
    named = {row["about"]: row for row in rows}
    whole, mix, rates = (named[name] for name in ("change", "mix", "rates"))
    start, end = whole["a"]["value"], whole["b"]["value"]
    if start is None or end is None:
        canvas.text(box.left, box.top + sizes.body, "Too little to split.", sizes.body)
        return
    middle = start + (mix["difference"] or 0.0)
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
            _write(canvas, axes, at, value, numbers.shown(value, whole["decimals"]), colour)
    with canvas.step(4):
        for at, row, level in ((1, mix, start), (2, rates, middle)):
            _step(canvas, axes, at, row, level, whole["decimals"])
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


def _interval(row: View, start: float) -> list[float]:
    if row["refused"]:
        return []
    return [start + row["difference_low"], start + row["difference_high"]]


def _step(canvas: Canvas, axes: Axes, at: int, row: View, start: float, decimals: int) -> None:
    theme, sizes = canvas.theme, canvas.sizes
    if row["refused"]:
        _write(canvas, axes, at, start, "too little", theme.muted)
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
    line(canvas, axes, [at, at], _interval(row, start), theme.ink, width=0.35)
    top = max(*_interval(row, start), start)
    words = numbers.points(size) if row["kind"] == "share" else numbers.shown(size, decimals, True)
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
