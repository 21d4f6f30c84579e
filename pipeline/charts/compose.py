"""A beat's chart, as a frame with its title and as the vector chart of the brief."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.charts import words
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, save
from pipeline.charts.drawings import Chart, described, draw, left_out, page_height
from pipeline.charts.theme import FRAME, LIGHT, PAGE
from pipeline.errors import write_atomically
from pipeline.sheets import csv_text

View = dict[str, Any]
WIDTH, HEIGHT = 1920, 1080
SHRUNK = ("change", "low", "high", "apart")
EDGE_X, EDGE_Y = round(0.05 * WIDTH), round(0.05 * HEIGHT)


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
    draw(frame, chart, view, findings, Box(EDGE_X, 212, WIDTH - 2 * EDGE_X - 6, 700))
    save(frame, folder / f"{chart.name}.png")
    height = page_height(chart)
    page = Canvas(1728, height, LIGHT, PAGE)
    draw(page, chart, view, findings, Box(4, 0, 1720, height))
    save(page, folder / f"{chart.name}.svg")
    write_atomically(folder / f"{chart.name}.csv", _csv(chart))
    return {
        "chart": chart.name,
        "beat": chart.beat["id"],
        "measure": chart.measure["label"],
        "alt": described(chart, view),
        "rows_left_out": left_out(chart),
    }


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


def _csv(chart: Chart) -> str:
    """The numbers drawn, unrounded."""
    if chart.series is not None:
        return csv_text(chart.series, ("season", "value", "low", "high", "matches", "balls"))
    rows = [_csv_row(finding) for finding in chart.findings]
    return csv_text(rows, list(max(rows, key=len)))


def _csv_row(finding: View) -> View:
    """One finding as drawn; the sides are named by what they are."""
    sides = {}
    for side, name in zip(("a", "b"), _side_names(finding), strict=True):
        values = finding[side]
        sides |= {f"{name}_{key}": values[key] for key in ("value", "low", "high", "matches")}
    ends = [f"{name}{end}" for name in ("difference", "change") for end in ("", "_low", "_high")]
    return {
        "finding": finding["id"],
        "cell": finding["cell"],
        **sides,
        **{key: finding[key] for key in ends},
        **({f"shrunk_{k}": finding["shrunk"][k] for k in SHRUNK} if finding["shrunk"] else {}),
        "verdict": finding["verdict"],
    }


def _side_names(finding: View) -> tuple[str, str]:
    """The sides by what they are; of a gap, which stands among changes, by their places."""
    return ("before", "after") if finding["about"] == "gap" else tuple(finding["sides"])
