"""Players one by one: each change as it came out, and drawn in towards that of their kind."""

from __future__ import annotations

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.marks import View, few_ticks, line, mark, style_ticks
from pipeline.wording import numbers

NOBODY = "Nobody has enough in both windows."
MOST_NAMES = 12  # more are left to the table: the two ends of the list are drawn
NAMES = 0.30  # of the width, at most
KEY = "hollow: as it came out · solid: luck allowed for, 95% interval"


def chosen(rows: list[View]) -> list[View]:
    """The players drawn, from the largest rise to the largest fall; both ends of a long list."""
    named = [row for row in rows if row["shrunk"]]
    told = sorted(named, key=lambda row: (-row["shrunk"]["change"], row["id"]))
    if len(told) <= MOST_NAMES:
        return told
    half = MOST_NAMES // 2
    return told[:half] + told[-half:]


def draw_names(canvas: Canvas, rows: list[View], box: Box) -> None:
    """`rows` as `chosen` gives them: hollow as it came out, solid drawn in, with its interval."""
    sizes, theme = canvas.sizes, canvas.theme
    if not rows:
        canvas.text(box.left, box.top + sizes.body, NOBODY, sizes.body)
        return
    head, foot = sizes.body * 1.5, sizes.small * 1.7
    step = min((box.height - head - foot) / len(rows), 2 * sizes.row)
    text = min(sizes.body, step * 0.86)
    said = [canvas.fit(_name(row), text, "ExtraBold", NAMES * box.width) for row in rows]
    name_width = max(canvas.text_width(name, size, "ExtraBold") for name, size in said)
    wide = max(canvas.text_width(_numbers(row), text, "ExtraBold") for row in rows)
    left = box.left + name_width + sizes.body
    with canvas.step(1):
        axes = canvas.axes(
            left, box.top + head, box.right - wide - sizes.body - left, step * len(rows)
        )
        _axis(canvas, axes, rows)
        for at, (row, (name, size)) in enumerate(zip(rows, said, strict=True)):
            y = box.top + head + step * (at + 0.5)
            canvas.text(box.left, y, name, size, _weight(row), vertical="center_baseline")
        key, size = canvas.fit(KEY, sizes.small, "Medium", box.width)
        y = box.top + sizes.small
        canvas.text(box.right, y, key, size, colour=theme.muted, align="right")
    with canvas.step(2):
        for at, row in enumerate(rows):
            mark(
                canvas,
                axes,
                row["change"] * 100,
                at + 0.5,
                _colour(canvas, row),
                solid=False,
                size=1.3,
            )
    with canvas.step(3):
        for at, row in enumerate(rows):
            _draw_shrunk(canvas, axes, row, at + 0.5)
    with canvas.step(4):
        for at, row in enumerate(rows):
            y = box.top + head + step * (at + 0.5)
            canvas.text(
                box.right,
                y,
                _numbers(row),
                text,
                _weight(row),
                align="right",
                vertical="center_baseline",
            )


def _axis(canvas: Canvas, axes: Axes, rows: list[View]) -> None:
    ends = [row["shrunk"][end] for row in rows for end in ("low", "high")]
    ends += [row["change"] for row in rows]
    low, high = min(*ends, 0) * 100, max(*ends, 0) * 100
    pad = (high - low) * 0.05 or 1
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(len(rows), 0)
    axes.set_yticks([])
    axes.set_xticks(few_ticks(low, high))
    style_ticks(canvas, axes, "{}%")
    axes.axvline(0, color=canvas.theme.ink, linewidth=2)


def _weight(row: View) -> str:
    return "ExtraBold" if row["shrunk"]["apart"] else "Medium"


def _colour(canvas: Canvas, row: View) -> str:
    return canvas.theme.second if row["shrunk"]["apart"] else canvas.theme.muted


def _name(row: View) -> str:
    return next(iter(row["values"].values()))


def _numbers(row: View) -> str:
    shrunk = row["shrunk"]
    ends = numbers.between(shrunk["low"] * 100, shrunk["high"] * 100, 0)
    return f"{numbers.percent(shrunk['change'], 0)} ({ends})"


def _draw_shrunk(canvas: Canvas, axes: Axes, row: View, y: float) -> None:
    shrunk, colour = row["shrunk"], _colour(canvas, row)
    ends = [shrunk["low"] * 100, shrunk["high"] * 100]
    line(canvas, axes, ends, [y, y], colour)
    mark(canvas, axes, shrunk["change"] * 100, y, colour, solid=True, size=1.3)
