"""Which drawing a beat's kind has, how tall it stands on a page, and what it leaves out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pipeline.charts import words
from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.comparison import FOOT, HEAD, MOST_ROWS, draw_comparison
from pipeline.charts.events import Event, event_place
from pipeline.charts.kinds import players
from pipeline.charts.kinds.mix import draw_split
from pipeline.charts.kinds.phases import draw_profile
from pipeline.charts.kinds.turning_point import turn_place
from pipeline.charts.series import draw_trend
from pipeline.charts.theme import PAGE
from pipeline.text import capitalised
from pipeline.wording import labels
from pipeline.wording.change import felt_said

View = dict[str, Any]
TALL = 700  # pixels of a drawing that is not made of rows
MOST_GAP_ROWS = 9  # three gaps, each under its two groups
LOW_ROW = 40  # pixels of a player's row on a page


@dataclass(frozen=True)
class Chart:
    """What one chart shows: a beat's measure with its findings, or its series."""

    name: str
    beat: View
    measure: View
    findings: list[View]
    series: list[View] | None
    sample: dict[str, int]


def rows_of(chart: Chart) -> list[View]:
    """The findings that are drawn as rows, in their order."""
    match chart.beat["kind"]:
        case "players":
            return players.chosen(chart.findings)
        case "phases":
            return [finding for finding in chart.findings if finding["cell"] != "all"]
        case "mix":
            return [f for f in chart.findings if f["cell"] in ("all", "mix", "rates")]
        case "gap":
            return _gap_rows(chart)[:MOST_GAP_ROWS]
    return chart.findings[:MOST_ROWS]


def left_out(chart: Chart) -> int:
    """Findings that are rows of the table and not of the drawing."""
    if chart.series is not None or chart.beat["kind"] == "mix":
        return 0
    whole = 1 if chart.beat["kind"] in ("players", "phases") else 0
    return len(chart.findings) - whole - len(rows_of(chart))


def page_height(chart: Chart) -> int:
    """Pixels of the vector chart in the brief."""
    kind, rows = chart.beat["kind"], len(rows_of(chart))
    if kind == "players" and rows:
        return round(PAGE.body * 1.7 + LOW_ROW * rows + PAGE.small * 1.9)
    if chart.series is not None or kind in ("phases", "mix"):
        return TALL
    return round(PAGE.body * HEAD + PAGE.row * max(rows, 1) + PAGE.small * FOOT)


def draw(
    canvas: Canvas, chart: Chart, view: View, findings: View, box: Box, blind: bool = False
) -> None:
    """The body of the chart; a series may be drawn blind."""
    rows = rows_of(chart)
    if chart.series is not None:
        finding = chart.findings[0] if chart.findings else None
        events, decimals = _events(view, chart.series, finding), chart.measure["decimals"]
        windows = findings["windows"]
        draw_trend(canvas, chart.series, finding, windows, events, decimals, box, blind)
    elif chart.beat["kind"] == "phases":
        draw_profile(canvas, rows, [_band(row) for row in rows], box)
    elif chart.beat["kind"] == "mix":
        draw_split(canvas, rows, box)
    elif chart.beat["kind"] == "players":
        players.draw_names(canvas, rows, box)
    else:
        told, sides = row_names(chart, view), side_names(chart, view)
        draw_comparison(canvas, rows, told, sides, box)
        if len(rows) == 1:
            _felt(canvas, rows[0], chart.measure, box)


def _felt(canvas: Canvas, row: View, measure: View, box: Box) -> None:
    """Under a single row: the same fact on the field, such as balls an innings."""
    said = felt_said(row, measure)
    if said and canvas.sizes.title:
        with canvas.step(4):
            y = box.top + box.height * 0.78
            words_, size = canvas.fit(said.rstrip("."), canvas.sizes.number, "SemiBold", box.width)
            canvas.text(box.left, y, words_, size, "SemiBold")


def row_names(chart: Chart, view: View) -> list[str]:
    return [labels.finding_label(row, chart.beat, view["format"]) for row in rows_of(chart)]


def side_names(chart: Chart, view: View) -> tuple[str, str]:
    """The two sides of the values drawn: of a gap chart, the windows of each group."""
    if chart.beat["kind"] == "gap":
        return "before", "after"
    return labels.side_labels(chart.findings[0], chart.beat, view["format"])


def described(chart: Chart, view: View) -> str:
    """Alternative text: what a reader who can't see the drawing needs."""
    name = capitalised(chart.measure["label"])
    if chart.series is not None:
        told = words.describe_series(chart.series, chart.measure["decimals"])
        return f"{name} by {chart.beat.get('every', 'season')}: {told}."
    rows = rows_of(chart)
    if not rows:
        return f"{name}. {players.NOBODY}"
    told = words.describe_rows(rows, row_names(chart, view), side_names(chart, view))
    return f"{name}, {chart.measure['unit']}. {told}."


def _band(row: View) -> str:
    return row["values"]["band"].replace("-", "–")


def _gap_rows(chart: Chart) -> list[View]:
    """Each cell's two groups, then the gap between their changes (without values to draw)."""
    (cut,) = chart.beat["between"]
    rows = []
    for gap in (finding for finding in chart.findings if finding["about"] == "gap"):
        for group in chart.beat["between"][cut]:
            values = {cut: group, **gap["values"]}
            rows += [f for f in chart.findings if f["values"] == values and f["about"] == "change"]
        blank = {side: {**gap[side], "value": None} for side in ("a", "b")}
        rows.append({**gap, **blank})
    return rows


def _events(view: View, series: list[View], finding: View | None) -> list[Event]:
    """The topic's events that fall inside the series, and the date that the data found."""
    listed = [view["event"]] if view["event"] else []
    placed = [
        (each["name"], event_place(each["date"], series)) for each in [*listed, *view["also"]]
    ]
    found = [Event(name, place) for name, place in placed if place is not None]
    turn = finding["turn"] if finding else None
    if turn and finding["verdict"] == "changed":
        found.append(Event("the data’s own date", turn_place(series, turn), found=True))
    return found
