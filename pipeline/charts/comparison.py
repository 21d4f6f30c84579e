"""Two sides of a comparison: both values on the left, the change with its interval on the right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.ticker import MaxNLocator

from pipeline.charts.canvas import Canvas, font, points
from pipeline.charts.words import effect
from pipeline.wording import numbers

View = dict[str, Any]
HEAD, FOOT = 2.0, 1.9  # lines of body and small text above and below the rows
LEAST_SPAN = 0.08  # the values' axis spans at least this share of the value: no molehill a mountain
MOST_ROWS = 8  # more are left to the table, and the chart says so


@dataclass(frozen=True)
class Columns:
    """Left edges and widths in pixels: names, values, changes, numbers."""

    left: float
    names: float
    values: float
    changes: float
    numbers: float
    gap: float

    @property
    def values_left(self) -> float:
        return self.left + self.names + self.gap

    @property
    def changes_left(self) -> float:
        return self.values_left + self.values + self.gap

    @property
    def numbers_left(self) -> float:
        return self.changes_left + self.changes + self.gap


def draw_comparison(
    canvas: Canvas,
    rows: list[View],
    names: list[str],
    sides: tuple[str, str],
    left: float,
    top: float,
    width: float,
    height: float,
) -> None:
    """Draw the rows into a rectangle of pixels. `rows` are findings with `decimals`."""
    sizes = canvas.sizes
    columns = _columns(canvas, rows, names, left, width)
    body_top = top + sizes.body * HEAD
    step = min((height - sizes.body * HEAD - sizes.small * FOOT) / len(rows), 2 * sizes.row)
    height = step * len(rows)
    middle = [body_top + step * (i + 0.5) for i in range(len(rows))]
    for y, name in zip(middle, names, strict=True):
        canvas.text(left, y, name, sizes.body, vertical="center_baseline")
    _draw_values(canvas, rows, columns, body_top, height, sides, top)
    _draw_changes(canvas, rows, columns, body_top, height, middle, top)


def _columns(
    canvas: Canvas, rows: list[View], names: list[str], left: float, width: float
) -> Columns:
    sizes = canvas.sizes
    gap = sizes.body * 0.9
    name_width = max(canvas.text_width(name, sizes.body) for name in names)
    number_width = max(sum(_number_widths(canvas, row)) for row in rows) + gap * 0.4
    rest = width - name_width - number_width - 3 * gap
    return Columns(left, name_width, rest * 0.62, rest * 0.38, number_width, gap)


def _number_widths(canvas: Canvas, row: View) -> tuple[float, float]:
    change, interval = effect(row)
    return (
        canvas.text_width(change, canvas.sizes.number, "ExtraBold") if change else 0.0,
        canvas.text_width(interval, canvas.sizes.small),
    )


def _draw_values(
    canvas: Canvas,
    rows: list[View],
    columns: Columns,
    top: float,
    height: float,
    sides: tuple[str, str],
    legend_top: float,
) -> None:
    theme, sizes = canvas.theme, canvas.sizes
    axes = canvas.axes(columns.values_left, top, columns.values, height)
    values = [row[side]["value"] for row in rows for side in ("a", "b")]
    known = [value for value in values if value is not None]
    _limit(canvas, axes, known, rows, columns.values)
    axes.set_ylim(len(rows), 0)
    axes.set_yticks([])
    axes.grid(axis="x", color=theme.hairline, linewidth=2)
    axes.set_axisbelow(True)
    _style_ticks(canvas, axes)
    for position, row in enumerate(rows):
        _draw_pair(canvas, axes, row, position + 0.5)
    _legend(canvas, sides, columns.values_left, legend_top + sizes.body)


def _limit(canvas: Canvas, axes: Any, values: list[float], rows: list[View], width: float) -> None:
    """Room at both ends for the numbers written beside the marks."""
    if not values:
        axes.set_xlim(0, 1)
        return
    low, high = min(values), max(values)
    spread = max(high - low, abs(high) * LEAST_SPAN) or 1.0
    low, high = (low + high - spread) / 2, (low + high + spread) / 2
    label = max(
        canvas.text_width(numbers.shown(value, rows[0]["decimals"]), canvas.sizes.small, "SemiBold")
        for value in values
    )
    room = (label + canvas.sizes.mark * 3.5) / width
    scale = spread / max(1 - 2 * room, 0.2)
    axes.set_xlim(low - room * scale, high + room * scale)
    axes.xaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10]))


def _draw_pair(canvas: Canvas, axes: Any, row: View, y: float) -> None:
    """Hollow for the first side, solid for the second, a bar between, a number on each outside."""
    theme, sizes = canvas.theme, canvas.sizes
    a, b = row["a"]["value"], row["b"]["value"]
    if a is not None and b is not None:
        axes.plot([a, b], [y, y], color=theme.hairline, linewidth=points(sizes.mark), zorder=1)
    marks = ((a, theme.first, "none", 2), (b, theme.second, theme.second, 3))
    for value, colour, face, order in marks:
        if value is None:
            continue
        fill = theme.ground if face == "none" else face
        axes.plot(
            [value],
            [y],
            marker="o",
            markersize=points(sizes.mark * 2),
            markerfacecolor=fill,
            markeredgecolor=colour,
            markeredgewidth=points(sizes.mark * 0.42),
            zorder=order,
        )
        other = b if colour == theme.first else a
        lower = other is None or value < other or (value == other and colour == theme.first)
        offset = sizes.mark * 1.9 * (-1 if lower else 1)
        label = axes.annotate(
            numbers.shown(value, row["decimals"]),
            (value, y),
            xytext=(points(offset), 0),
            textcoords="offset points",
            fontproperties=font("SemiBold"),
            fontsize=points(sizes.small),
            color=colour,
            ha="right" if lower else "left",
            va="center_baseline",
        )
        label.set_fontfeatures(["tnum"])


def _legend(canvas: Canvas, sides: tuple[str, str], left: float, y: float) -> None:
    """Names of the two sides with their marks, hollow and solid."""
    theme, sizes = canvas.theme, canvas.sizes
    x = left
    for name, colour, fill in (
        (sides[0], theme.first, theme.ground),
        (sides[1], theme.second, theme.second),
    ):
        axes = canvas.axes(x, y - sizes.small, sizes.mark * 3, sizes.small * 1.2)
        axes.set(xlim=(-1, 1), ylim=(-1, 1), xticks=[], yticks=[])
        axes.plot(
            [0],
            [-0.1],
            marker="o",
            markersize=points(sizes.mark * 2),
            markerfacecolor=fill,
            markeredgecolor=colour,
            markeredgewidth=points(sizes.mark * 0.42),
        )
        text_left = x + sizes.mark * 3.4
        canvas.text(text_left, y, name, sizes.small, "SemiBold", colour)
        x = text_left + canvas.text_width(name, sizes.small, "SemiBold") + sizes.body


def _draw_changes(
    canvas: Canvas,
    rows: list[View],
    columns: Columns,
    top: float,
    height: float,
    middle: list[float],
    heading_top: float,
) -> None:
    theme, sizes = canvas.theme, canvas.sizes
    axes = canvas.axes(columns.changes_left, top, columns.changes, height)
    share = rows[0]["kind"] == "share"
    name, factor = ("difference", 1.0) if share else ("change", 100.0)
    ends = [
        row[f"{name}{end}"] * factor
        for row in rows
        for end in ("_low", "_high")
        if not row["refused"]
    ]
    low, high = min([*ends, 0.0]), max([*ends, 0.0])
    pad = ((high - low) or 1.0) * 0.06
    axes.set_xlim(low - pad, high + pad)
    axes.set_ylim(len(rows), 0)
    axes.set_yticks([])
    axes.set_xticks(_few_ticks(low, high))
    _style_ticks(canvas, axes, "{} pts" if share else "{}%")
    axes.axvline(0, color=theme.ink, linewidth=2)
    for position, (row, y) in enumerate(zip(rows, middle, strict=True)):
        _draw_change(canvas, axes, row, name, factor, position + 0.5)
        _write_change(canvas, row, columns, y)
    right = columns.numbers_left + columns.numbers
    words = f"{'change' if rows[0]['sides'][0] == 'before' else 'gap'}, with 95% interval"
    y = heading_top + sizes.body
    canvas.text(right, y, words, sizes.small, colour=theme.muted, align="right")


def _few_ticks(low: float, high: float) -> list[float]:
    """Zero and one round number on the longer side."""
    reach = high if high >= -low else low
    if not reach:
        return [0.0]
    size = 10 ** np.floor(np.log10(abs(reach)))
    step = max(size * digit for digit in (1, 2, 5) if size * digit <= abs(reach))
    return sorted({0.0, float(np.sign(reach) * step)})


def _draw_change(canvas: Canvas, axes: Any, row: View, name: str, factor: float, y: float) -> None:
    if row["refused"]:
        return
    theme, sizes = canvas.theme, canvas.sizes
    moved = row["verdict"] == "changed"
    colour = theme.second if moved else theme.muted
    ends = [row[f"{name}_low"] * factor, row[f"{name}_high"] * factor]
    axes.plot(ends, [y, y], color=colour, linewidth=points(sizes.mark * 0.45), zorder=2)
    axes.plot(
        [row[name] * factor],
        [y],
        marker="D",
        markersize=points(sizes.mark * 1.5),
        markerfacecolor=colour if moved else theme.ground,
        markeredgecolor=colour,
        markeredgewidth=points(sizes.mark * 0.35),
        zorder=3,
    )


def _write_change(canvas: Canvas, row: View, columns: Columns, y: float) -> None:
    change, interval = effect(row)
    right = columns.numbers_left + columns.numbers
    sizes = canvas.sizes
    if change:
        canvas.text(
            columns.numbers_left, y, change, sizes.number, "ExtraBold", vertical="center_baseline"
        )
    canvas.text(
        right,
        y,
        interval,
        sizes.small,
        colour=canvas.theme.muted,
        align="right",
        vertical="center_baseline",
    )


def _style_ticks(canvas: Canvas, axes: Any, pattern: str = "{}") -> None:
    ticks = [tick for tick in axes.get_xticks() if axes.get_xlim()[0] <= tick <= axes.get_xlim()[1]]
    steps = np.diff(ticks)
    decimals = 0 if not len(steps) else max(0, int(np.ceil(-np.log10(steps.min()) - 1e-9)))
    words = [_tick_word(tick, decimals, pattern) for tick in ticks]
    axes.set_xticks(ticks, words, fontproperties=font("Medium"), color=canvas.theme.muted)
    for label in axes.get_xticklabels():
        label.set_fontsize(points(canvas.sizes.small))
        label.set_fontfeatures(["tnum"])


def _tick_word(tick: float, decimals: int, pattern: str) -> str:
    """'10%', '1 pt', '2 pts'; zero needs no unit."""
    if not tick and pattern != "{}":
        return "0"
    word = pattern.format(numbers.shown(tick, decimals))
    return word.removesuffix("s") if abs(tick) == 1 else word
