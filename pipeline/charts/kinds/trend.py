"""trend: the series with its two windows' values, and the drift that runs through them."""

from __future__ import annotations

import math
from datetime import date

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.events import events_inside
from pipeline.charts.faces import font, points
from pipeline.charts.marks import line
from pipeline.charts.series import (
    described,
    draw_series,
    left_out,
    page_height,
    rows,
    split_of,
)
from pipeline.charts.time_axis import Limits, placed, seen
from pipeline.contracts.finding import Change
from pipeline.contracts.findings import Point
from pipeline.contracts.timing import Period, Window, Windows
from pipeline.wording import numbers

__all__ = ["described", "draw", "left_out", "page_height", "rows"]
LEAST = 4.0  # marks that the line of a window is long
Path = list[tuple[float, float]]  # days and values, in order of time


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """The series; over it the drift, and each window's own value, where they could be asked."""
    series, decimals, timing = chart.points, chart.measure.decimals, chart.timing
    events = events_inside(around.dates, series)

    def draw_over(axes: Axes) -> None:
        for finding in chart.findings:
            if timing.windows and isinstance(finding, Change) and not finding.refused:
                _draw_drift(canvas, axes, timing.periods[timing.unit], finding, around.event)
                _draw_means(canvas, axes, series, finding, timing.windows, decimals)

    split = split_of(chart)
    draw_series(canvas, series, split, events, decimals, box, draw_over, around.blind)


def _draw_drift(
    canvas: Canvas, axes: Axes, periods: list[Period], finding: Change, event: date | None
) -> None:
    """The drift with its step at the event, where it could be asked: a thin dashed line."""
    drift = finding.drift
    if not drift or not drift.test or not drift.test.fit or not event:
        return
    for path in drift_paths(periods, drift.test.fit, event):
        days, values = [day for day, _ in path], [value for _, value in path]
        line(canvas, axes, days, values, canvas.theme.muted, width=0.2, dash=(0, (6, 3)))


def drift_paths(periods: list[Period], fit: list[tuple[str, float]], event: date) -> list[Path]:
    """The line before the event and the one after it, both drawn on to the event's own day.

    It is of the topic's periods, whatever the points of the series are. The fit is of one drift on
    the log scale, so that either line can be drawn on by it.
    """
    fitted = dict(fit)
    told = [(each, fitted[each.label]) for each in periods if each.label in fitted]
    before = [(each.middle, value) for each, value in told if each.first < event]
    after = [(each.middle, value) for each, value in told if each.first >= event]
    longer, day = max(before, after, key=len), float(event.toordinal())
    if before and before[-1][0] < day:
        before = [*before, _drawn_on(before[-1], longer, day)]
    if after and day < after[0][0]:
        after = [_drawn_on(after[0], longer, day), *after]
    return [path for path in (before, after) if path]


def _drawn_on(end: tuple[float, float], path: Path, day: float) -> tuple[float, float]:
    """Where the line comes to on a day, from one of its ends, by the drift of a path."""
    (first, low), (last, high) = path[0], path[-1]
    drift = math.log(high / low) / (last - first) if last > first else 0.0
    return day, end[1] * math.exp(drift * (day - end[0]))


def _draw_means(
    canvas: Canvas,
    axes: Axes,
    series: list[Point],
    finding: Change,
    windows: Windows,
    decimals: int,
) -> None:
    """Each window's own value as a line across it, named under it; side by side or not at all."""
    theme, sizes = canvas.theme, canvas.sizes
    limits, whole = Limits(*axes.get_xlim()), axes.get_window_extent(canvas.renderer).width
    edge = -1e9
    both = (windows.before, windows.after)
    sides = zip(both, finding.sides, (finding.a, finding.b), strict=True)
    for (window, name, side), colour in zip(sides, (theme.first, theme.second), strict=True):
        if not (days := _days(series, window)) or side.value is None:
            continue
        ends = seen(canvas, axes, *days, LEAST)
        line(canvas, axes, ends, [side.value, side.value], colour, width=0.3)
        words = f"{name} {numbers.shown(side.value, decimals)}"
        width = canvas.text_width(words, sizes.small, "SemiBold")
        centre = limits.share(sum(ends) / 2) * whole
        centre = min(max(centre, width / 2), whole - width / 2)
        centre = max(centre, edge + width / 2 + sizes.body * 0.5)
        edge = centre + width / 2
        if edge > whole:
            continue
        label = axes.annotate(
            words,
            (centre / whole, 0),
            xycoords="axes fraction",
            xytext=(0, points(sizes.small * 0.35)),
            textcoords="offset points",
            fontproperties=font("SemiBold"),
            fontsize=points(sizes.small),
            color=colour,
            ha="center",
        )
        if not theme.plate:  # on one it would be seen
            label.set_bbox({"facecolor": theme.ground, "edgecolor": "none", "pad": 1})
        label.set_fontfeatures(["tnum"])


def _days(series: list[Point], window: Window) -> tuple[float, float] | None:
    """The first and the last day of a window, as far as the series goes; none apart from it."""
    there = placed(series)
    if not there:
        return None
    first = max(window.first, min(each.first for each in there))
    last = min(window.last, max(each.last for each in there))
    return (float(first.toordinal()), float(last.toordinal())) if first <= last else None
