"""A beat's chart, as a frame with its title and as the vector chart of the brief."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pipeline.charts import words
from pipeline.charts.canvas import Canvas, save
from pipeline.charts.comparison import FOOT, HEAD, MOST_ROWS, draw_comparison
from pipeline.charts.theme import FRAME, LIGHT, PAGE
from pipeline.charts.trend import draw_trend, event_place
from pipeline.errors import write_atomically
from pipeline.sheets import csv_text
from pipeline.wording import labels

View = dict[str, Any]
WIDTH, HEIGHT = 1920, 1080
EDGE_X, EDGE_Y = round(0.05 * WIDTH), round(0.05 * HEIGHT)


@dataclass(frozen=True)
class Chart:
    """What one chart shows: a beat's measure with its findings, or its series."""

    name: str
    beat: View
    measure: View
    findings: list[View]
    series: list[View] | None
    sample: dict[str, int]


def charts_of(view: View, findings: View) -> list[Chart]:
    """One chart for each measure of each beat, named 'beat.measure'."""
    made = []
    for beat in view["beats"]:
        for name in beat["measures"]:
            key = f"{beat['id']}.{name}"
            measure = view["measures"][name]
            mine = [
                {**finding, "decimals": measure["decimals"]}
                for finding in findings["findings"]
                if finding["beat"] == beat["id"] and finding["measure"] == name
            ]
            series = findings["series"].get(key)
            made.append(Chart(key, beat, measure, mine, series, findings["samples"][key]))
    return made


def render(chart: Chart, view: View, findings: View, folder: Path) -> View:
    """Write the chart's PNG, SVG and CSV; return what the brief needs to know of them."""
    frame = Canvas(WIDTH, HEIGHT, LIGHT, FRAME)
    _head_and_foot(frame, chart, view, findings)
    left_out = _draw(frame, chart, view, findings, EDGE_X, 212, WIDTH - 2 * EDGE_X - 6, 700)
    save(frame, folder / f"{chart.name}.png")
    page = Canvas(1728, _page_height(chart), LIGHT, PAGE)
    _draw(page, chart, view, findings, 4, 0, 1720, _page_height(chart))
    save(page, folder / f"{chart.name}.svg")
    write_atomically(folder / f"{chart.name}.csv", _csv(chart))
    return {
        "chart": chart.name,
        "beat": chart.beat["id"],
        "measure": chart.measure["label"],
        "alt": _alt(chart, view),
        "rows_left_out": left_out,
    }


def _page_height(chart: Chart) -> int:
    if chart.series is not None:
        return 700
    rows = min(len(chart.findings), MOST_ROWS)
    return round(PAGE.body * HEAD + PAGE.row * rows + PAGE.small * FOOT)


def _head_and_foot(canvas: Canvas, chart: Chart, view: View, findings: View) -> None:
    sizes, theme, room = canvas.sizes, canvas.theme, WIDTH - 2 * EDGE_X
    title = words.heading(chart.beat, chart.measure)
    size = canvas.fitted(title, sizes.title, "ExtraBold", room)
    canvas.text(EDGE_X, EDGE_Y + 62, title, size, "ExtraBold")
    line = words.subtitle(view, chart.beat, chart.measure, findings["windows"])
    size = canvas.fitted(line, sizes.subtitle, "Medium", room)
    canvas.text(EDGE_X, EDGE_Y + 126, line, size, colour=theme.muted)
    sample, notice = words.foot(view, chart.sample)
    for position, text in enumerate([sample, notice] if notice else [sample]):
        size = canvas.fitted(text, sizes.small, "Medium", room)
        y = HEIGHT - EDGE_Y - 12 - (sizes.small * 1.25) * ((1 if notice else 0) - position)
        canvas.text(EDGE_X, y, text, size, colour=theme.muted)


def _draw(
    canvas: Canvas,
    chart: Chart,
    view: View,
    findings: View,
    left: float,
    top: float,
    width: float,
    height: float,
) -> int:
    """Draw the body of the chart; the number of rows that did not fit."""
    if chart.series is not None:
        finding = chart.findings[0] if chart.findings else None
        events = _events(view, findings)
        decimals = chart.measure["decimals"]
        windows = findings["windows"]
        draw_trend(
            canvas, chart.series, finding, windows, events, decimals, left, top, width, height
        )
        return 0
    rows = chart.findings[:MOST_ROWS]
    names = [labels.cell_label(row["values"], view["format"]) for row in rows]
    sides = labels.side_labels(rows[0], chart.beat, view["format"])
    draw_comparison(canvas, rows, names, sides, left, top, width, height)
    return len(chart.findings) - len(rows)


def _events(view: View, findings: View) -> list[tuple[str, float]]:
    listed = [view["event"]] if view["event"] else []
    placed = [
        (event["name"], event_place(event["date"], findings["season_ends"]))
        for event in [*listed, *view["also"]]
    ]
    return [(name, place) for name, place in placed if place is not None]


def _alt(chart: Chart, view: View) -> str:
    if chart.series is not None:
        values = words.describe_series(chart.series, chart.measure["decimals"])
        return f"{labels.capitalised(chart.measure['label'])} by season: {values}."
    rows = chart.findings[:MOST_ROWS]
    names = [labels.cell_label(row["values"], view["format"]) for row in rows]
    sides = labels.side_labels(rows[0], chart.beat, view["format"])
    what = words.describe_comparison(rows, names, sides)
    return f"{labels.capitalised(chart.measure['label'])}, {chart.measure['unit']}. {what}."


def _csv(chart: Chart) -> str:
    """The numbers drawn, unrounded."""
    if chart.series is not None:
        return csv_text(chart.series, ("season", "value", "low", "high", "matches", "balls"))
    rows = [_csv_row(finding) for finding in chart.findings]
    return csv_text(rows, list(rows[0]))


def _csv_row(finding: View) -> View:
    """One finding as drawn; the sides are named by what they are."""
    sides = {}
    for side, name in zip(("a", "b"), finding["sides"], strict=True):
        values = finding[side]
        sides |= {f"{name}_{key}": values[key] for key in ("value", "low", "high", "matches")}
    ends = [f"{name}{end}" for name in ("difference", "change") for end in ("", "_low", "_high")]
    return {
        "finding": finding["id"],
        "cell": finding["cell"],
        **sides,
        **{key: finding[key] for key in ends},
        "verdict": finding["verdict"],
    }
