"""One figure of the calibration: every result with its Monte Carlo error, beside its bar."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from tests.calibration.base import NAIVE, Row

Span = tuple[float, float]


class Panel(NamedTuple):
    """What is drawn of one quantity: the band of its bar, and the ends of the axis."""

    quantity: str
    title: str
    band: Span | None
    limits: Span


COLUMNS = (
    (Panel("false_alarm", "False alarms at 5 %", (0.0, 0.07), (0.0, 0.20)),),
    (
        Panel("coverage", "Coverage of 95 % intervals", (0.93, 0.97), (0.80, 1.0)),
        Panel("false_coverage", "Picked intervals that miss the truth", (0.0, 0.10), (0.0, 0.20)),
        Panel("power", "Power", None, (0.0, 1.0)),
    ),
)
COLOUR, GREY = "#B3341F", "#6B6B6B"
SHAPES = dict(zip(NAIVE, "os^Dv*", strict=True))
LINE = 0.155  # inches
Line = tuple[str, list[Row]]


def draw(rows: list[Row], path: Path) -> None:
    """A line a result. What nobody should do stands hollow on the line of what is done instead."""
    columns = [[(panel, _lines(rows, panel.quantity)) for panel in each] for each in COLUMNS]
    most = max(sum(len(lines) + 4 for _, lines in column) for column in columns)
    figure = Figure(figsize=(24, most * LINE), layout="constrained")
    for part, column in zip(figure.subfigures(1, 2), columns, strict=True):
        heights = [max(len(lines), 1) for _, lines in column]
        panels = part.subplots(len(column), 1, height_ratios=heights, squeeze=False)
        for (axes,), (panel, lines) in zip(panels, column, strict=True):
            _panel(axes, panel, lines)
    _legend(figure)
    figure.savefig(path, dpi=80, metadata={"Software": None})


def _lines(rows: Iterable[Row], quantity: str) -> list[Line]:
    """Labels with their results: the first of a scenario has what nobody should do beside it."""
    mine = [row for row in rows if row.quantity == quantity]
    lines: list[Line] = []
    first: dict[str, list[Row]] = {}
    for row in mine:
        if row.method not in NAIVE:
            lines.append((f"{row.scenario}: {row.method}", [row]))
            first.setdefault(row.scenario, lines[-1][1])
    for row in mine:
        if row.method in NAIVE and row.scenario in first:
            first[row.scenario].append(row)
        elif row.method in NAIVE:
            lines.append((f"{row.scenario}: {row.method}", [row]))
    return lines


def _panel(axes: Axes, panel: Panel, lines: list[Line]) -> None:
    if panel.band:
        axes.axvspan(*panel.band, color="#DDE3DF", linewidth=0)
    for at, (_, results) in enumerate(lines):
        for row in results:
            _dot(axes, at, row, panel.limits)
    axes.set_yticks(range(len(lines)), [label for label, _ in lines], fontsize=7)
    axes.set_ylim(len(lines) - 0.5, -0.5)
    axes.set_xlim(*panel.limits)
    axes.grid(axis="y", color="#EEEEEE", linewidth=0.6)
    axes.set_axisbelow(True)
    axes.set_title(panel.title, loc="left")


def _dot(axes: Axes, at: int, row: Row, limits: Span) -> None:
    """With two Monte Carlo errors; one beyond the end of the axis stands there, with its value."""
    naive = row.method in NAIVE
    colour = GREY if naive else COLOUR
    value = min(max(row.value, limits[0]), limits[1])
    axes.errorbar(
        value,
        at,
        xerr=2 * row.mc_error if value == row.value else None,
        fmt=SHAPES.get(row.method, "o"),
        color=colour,
        markerfacecolor="white" if naive else colour,
        markersize=5,
        linewidth=1,
        clip_on=False,
    )
    if value != row.value:
        inwards = -7 if value == limits[1] else 7
        axes.annotate(
            f"{row.value:.2f}",
            (value, at),
            (inwards, 0),
            textcoords="offset points",
            ha="right" if inwards < 0 else "left",
            va="center",
            fontsize=7,
            color=colour,
        )


def _legend(figure: Figure) -> None:
    """What the hollow shapes are."""
    axes = figure.add_axes((0, 0, 0, 0), frameon=False, xticks=[], yticks=[])
    axes.set_in_layout(False)
    for method, shape in SHAPES.items():
        axes.plot([], [], shape, color=GREY, markerfacecolor="white", label=method)
    figure.legend(loc="outside lower center", ncols=len(SHAPES), frameon=False, fontsize=9)
