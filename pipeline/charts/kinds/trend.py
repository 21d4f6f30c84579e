"""trend: the series with its two windows' values, and the drift that runs through them."""

from __future__ import annotations

from matplotlib.axes import Axes

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.events import events_inside
from pipeline.charts.faces import font, points
from pipeline.charts.marks import line
from pipeline.charts.series import (
    Split,
    described,
    draw_series,
    left_out,
    page_height,
    rows,
    split_of,
)
from pipeline.contracts.finding import Change
from pipeline.contracts.findings import Point
from pipeline.wording import numbers

__all__ = ["described", "draw", "left_out", "page_height", "rows"]


def draw(canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
    """The series; over it the drift, and each window's own value, where they could be asked."""
    series, decimals, split = chart.points, chart.measure.decimals, split_of(around.windows)
    events = events_inside(around.dates, series)

    def draw_over(axes: Axes) -> None:
        for finding in chart.findings:
            if split and isinstance(finding, Change) and not finding.refused:
                _draw_drift(canvas, axes, series, finding)
                _draw_means(canvas, axes, series, finding, split, decimals)

    draw_series(canvas, series, split, events, decimals, box, draw_over, around.blind)


def _draw_drift(canvas: Canvas, axes: Axes, series: list[Point], finding: Change) -> None:
    """The drift with its step at the event, where it could be asked: a thin dashed line."""
    drift = finding.drift
    if not drift or not drift.test or not drift.test.fit:
        return
    at = {point.label: place for place, point in enumerate(series)}
    told = [(at[label], value) for label, value in drift.test.fit if label in at]
    for part in (told[: drift.seasons_before], told[drift.seasons_before :]):
        places, values = [x for x, _ in part], [y for _, y in part]
        line(canvas, axes, places, values, canvas.theme.muted, width=0.2, dash=(0, (6, 3)))


def _draw_means(
    canvas: Canvas,
    axes: Axes,
    series: list[Point],
    finding: Change,
    split: Split,
    decimals: int,
) -> None:
    """Each window's own value as a line across it, named under it; side by side or not at all."""
    theme, sizes = canvas.theme, canvas.sizes
    seasons = [point.label for point in series]
    each = axes.get_window_extent(canvas.renderer).width / len(series)
    edge = -1e9
    sides = zip(split, finding.sides, (finding.a, finding.b), strict=True)
    for (labels, name, side), colour in zip(sides, (theme.first, theme.second), strict=True):
        places = [seasons.index(label) for label in labels if label in seasons]
        if not places or side.value is None:
            continue
        ends = [min(places) - 0.4, max(places) + 0.4]
        line(canvas, axes, ends, [side.value, side.value], colour, width=0.3)
        words = f"{name} {numbers.shown(side.value, decimals)}"
        width = canvas.text_width(words, sizes.small, "SemiBold")
        centre = (sum(ends) / 2 + 0.6) * each
        centre = min(max(centre, width / 2), each * len(series) - width / 2)
        centre = max(centre, edge + width / 2 + sizes.body * 0.5)
        edge = centre + width / 2
        if edge > each * len(series):
            continue
        label = axes.annotate(
            words,
            (centre / each - 0.6, axes.get_ylim()[0]),
            xytext=(0, points(sizes.small * 0.35)),
            textcoords="offset points",
            fontproperties=font("SemiBold"),
            fontsize=points(sizes.small),
            color=colour,
            ha="center",
            bbox={"facecolor": theme.ground, "edgecolor": "none", "pad": 1},
        )
        label.set_fontfeatures(["tnum"])
