"""Players one by one: each change as it came out, and drawn in towards that of their kind."""

from __future__ import annotations

from typing import Any

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, points
from pipeline.charts.panel import View, few_ticks, style_ticks
from pipeline.wording import numbers

NOBODY = "Nobody has enough in both windows."
MOST_NAMES = 12  # more are left to the table: the two ends of the list are drawn


def chosen(rows: list[View]) -> list[View]:
    """The players drawn, from the largest rise to the largest fall; both ends of a long list."""
    told = sorted(
        (row for row in rows if row["shrunk"]),
        key=lambda row: (-row["shrunk"]["change"], row["id"]),
    )
    if len(told) <= MOST_NAMES:
        return told
    half = MOST_NAMES // 2
    return told[:half] + told[-half:]


def draw_names(canvas: Canvas, rows: list[View], box: Box) -> None:
    """`rows` as `chosen` gives them: hollow as it came out, solid drawn in, with its interval."""
    sizes, theme = canvas.sizes, canvas.theme
    if not rows:
        canvas.text(
            box.left, box.top + sizes.body, "Nobody has enough in both windows.", sizes.body
        )
        return
    head, foot = sizes.body * 1.7, sizes.small * 1.9
    step = (box.height - head - foot) / len(rows)
    text = min(sizes.body, step * 0.82)
    name_width = max(canvas.text_width(_name(row), text) for row in rows)
    wide = max(canvas.text_width(_numbers(row), text) for row in rows)
    gap = sizes.body
    left = box.left + name_width + gap
    axes = canvas.axes(left, box.top + head, box.right - wide - gap - left, step * len(rows))
    ends = [
        value
        for row in rows
        for value in (row["shrunk"]["low"], row["shrunk"]["high"], row["change"])
    ]
    low, high = min(*ends, 0) * 100, max(*ends, 0) * 100
    pad = (high - low) * 0.05 or 1
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(len(rows), 0)
    axes.set_yticks([])
    axes.set_xticks(few_ticks(low, high))
    style_ticks(canvas, axes, "{}%")
    axes.axvline(0, color=theme.ink, linewidth=2)
    for at, row in enumerate(rows):
        y = box.top + head + step * (at + 0.5)
        weight = "ExtraBold" if row["shrunk"]["apart"] else "Medium"
        canvas.text(box.left, y, _name(row), text, weight, vertical="center_baseline")
        _draw(canvas, axes, row, at + 0.5)
        canvas.text(
            box.right, y, _numbers(row), text, weight, align="right", vertical="center_baseline"
        )
    heading = "hollow: as it came out · solid: drawn in for luck, with 95% interval"
    size = canvas.fitted(heading, sizes.small, "Medium", box.width)
    canvas.text(box.right, box.top + sizes.body, heading, size, colour=theme.muted, align="right")


def _name(row: View) -> str:
    return next(iter(row["values"].values()))


def _numbers(row: View) -> str:
    shrunk = row["shrunk"]
    ends = numbers.between(shrunk["low"] * 100, shrunk["high"] * 100, 0)
    return f"{numbers.percent(shrunk['change'], 0)} ({ends})"


def _draw(canvas: Canvas, axes: Any, row: View, y: float) -> None:
    theme, sizes, shrunk = canvas.theme, canvas.sizes, row["shrunk"]
    colour = theme.second if shrunk["apart"] else theme.muted
    ends = [shrunk["low"] * 100, shrunk["high"] * 100]
    axes.plot(ends, [y, y], color=colour, linewidth=points(sizes.mark * 0.4), zorder=2)
    for value, face in ((row["change"], theme.ground), (shrunk["change"], colour)):
        axes.plot(
            [value * 100],
            [y],
            marker="o",
            markersize=points(sizes.mark * 1.3),
            markerfacecolor=face,
            markeredgecolor=colour,
            markeredgewidth=points(sizes.mark * 0.3),
            zorder=3,
        )
