"""All that is written of a chart: its frames, the vector chart of the brief, the data behind it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, save, use_faces
from pipeline.charts.drawings import Chart, described, draw, left_out, page_height
from pipeline.charts.frame import frame, words_of
from pipeline.charts.hold import hold_seconds
from pipeline.charts.theme import PAGE, sized, theme_of
from pipeline.config.frame_files import STEPS, frame_names
from pipeline.contracts.facts import ChartMade
from pipeline.csv_files import csv_text
from pipeline.errors import write_atomically

View = dict[str, Any]
SHRUNK = ("change", "low", "high", "apart")
SIDE = ("value", "low", "high", "matches", "balls")


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


def render(chart: Chart, view: View, findings: View, folder: Path) -> ChartMade:
    """Write the chart's frames, SVG and CSV; return what the brief needs to know of them."""
    use_faces(view["theme"]["fonts"])
    _frames(chart, view, findings, folder)
    height = page_height(chart)
    page = Canvas(1728, height, theme_of(view["theme"], "light"), sized(PAGE, view["theme"]))
    draw(page, chart, view, findings, Box(4, 0, 1720, height))
    save(page, folder / f"{chart.name}.svg")
    write_atomically(folder / f"{chart.name}.csv", _csv(chart))
    said = words_of(chart, view, findings)
    return ChartMade(
        chart=chart.name,
        beat=chart.beat["id"],
        measure=chart.measure["label"],
        title=said.title,
        alt=described(chart, view),
        rows_left_out=left_out(chart),
        hold_seconds=hold_seconds(said.title, said.subtitle),
        frames=list(frame_names(chart.name, view["frames"], chart.beat.get("blind", False))),
    )


def _frames(chart: Chart, view: View, findings: View, folder: Path) -> None:
    """Each theme is drawn once: at both sizes, and in steps, it is the same figure."""
    sets = view["frames"]
    for name in ("light", "dark", "clear"):
        wanted = [times for times, kind in ((1, name), (2, f"{name}-4k")) if kind in sets]
        steps = name == "light" and "steps" in sets
        if not wanted and not steps:
            continue
        canvas = frame(chart, view, findings, theme_of(view["theme"], name))
        for times in wanted:
            ending = ("" if name == "light" else f".{name}") if times == 1 else f".{name}-4k"
            save(canvas, folder / f"{chart.name}{ending}.png", times)
        for number in range(1, STEPS + 1) if steps else ():
            canvas.show(number)
            save(canvas, folder / f"{chart.name}.step-{number}.png")
    if chart.beat.get("blind"):
        light = theme_of(view["theme"], "light")
        hidden = frame(chart, view, findings, light, blind=True)
        save(hidden, folder / f"{chart.name}.blind.png")
        save(frame(chart, view, findings, light, still=True), folder / f"{chart.name}.reveal.png")


def _csv(chart: Chart) -> str:
    """The numbers drawn, unrounded."""
    if chart.series is not None:
        return csv_text(chart.series, ("season", *SIDE))
    rows = [_csv_row(finding) for finding in chart.findings]
    return csv_text(rows, list(max(rows, key=len)))


def _csv_row(finding: View) -> View:
    """One finding as drawn; the sides are named by what they are."""
    sides = {}
    for side, name in zip(("a", "b"), _side_names(finding), strict=True):
        sides |= {f"{name}_{key}": finding[side][key] for key in SIDE}
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
