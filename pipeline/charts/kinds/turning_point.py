"""A turning point on its series: the date's interval as a band, the fitted level on each side."""

from __future__ import annotations

from typing import Any

from matplotlib.axes import Axes

from pipeline.charts.canvas import Canvas
from pipeline.charts.marks import line

View = dict[str, Any]


def turned(series: list[View], turn: View) -> View:
    """The points on either side of the data's own date."""
    labels = [point["season"] for point in series]
    at = labels.index(turn["next"])
    return {"before": labels[:at], "after": labels[at:]}


def turn_place(series: list[View], turn: View) -> float:
    """Where the data's own date falls among the points."""
    return [point["season"] for point in series].index(turn["last"]) + 0.5


def draw_turn(canvas: Canvas, axes: Axes, series: list[View], turn: View) -> None:
    """Shade the interval, draw the date and the fitted level."""
    theme = canvas.theme
    labels = [point["season"] for point in series]
    low, high = (labels.index(turn[name]) + 0.5 for name in ("low", "high"))
    axes.axvspan(low - 0.25, high + 0.25, color=theme.hairline, linewidth=0, zorder=0)
    fitted = dict(turn["fit"])
    at = labels.index(turn["next"])
    for side, colour in ((labels[:at], theme.first), (labels[at:], theme.second)):
        told = [label for label in side if label in fitted]
        places = [labels.index(label) for label in told]
        line(canvas, axes, places, [fitted[label] for label in told], colour, width=0.3)
