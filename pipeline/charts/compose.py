"""All that is written of a chart: its frames, the vector chart of the brief, the data behind it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas, save
from pipeline.charts.chart import Chart
from pipeline.charts.data import data_of
from pipeline.charts.drawings import described, draw, left_out, page_height
from pipeline.charts.faces import use_faces
from pipeline.charts.frame import frame, words_of
from pipeline.charts.hold import hold_seconds
from pipeline.charts.theme import PAGE, sized, theme_of
from pipeline.config.frame_files import STEPS, frame_names, panel_charts
from pipeline.contracts.facts import ChartMade
from pipeline.contracts.findings import Findings
from pipeline.errors import write_atomically
from pipeline.wording.credits import credited

if TYPE_CHECKING:
    from pipeline.config.views import ChartsView

WIDTH = 1728  # pixels of the vector chart


def charts_of(view: ChartsView, findings: Findings) -> list[Chart]:
    """One chart for each measure of each beat, named 'beat.measure', and its headlines' panels."""
    made, whose = [], credited(view.credits, findings.data)
    for beat in view.beats:
        for name in beat.measures:
            key = f"{beat.id}.{name}"
            mine = [f for f in findings.findings if f.beat == beat.id and f.measure == name]
            series, sample = findings.series.get(key), findings.samples[key]
            timing = findings.timing_of(beat.about)
            made.append(Chart(key, beat, view.measures[name], mine, series, sample, whose, timing))
            asked = panel_charts([beat], view.headlines)
            made += [
                replace(made[-1], name=asked[one.id], findings=[one], series=None, again=True)
                for one in mine
                if one.id in asked
            ]
    return made


def render(chart: Chart, view: ChartsView, folder: Path) -> ChartMade:
    """Write the chart's frames, SVG and CSV; return what the brief needs to know of them."""
    use_faces(view.theme.fonts.model_dump())
    _frames(chart, view, folder)
    height = page_height(chart)
    page = Canvas(WIDTH, height, theme_of(view.theme, "light"), sized(PAGE, view.theme))
    draw(page, chart, view, Box(4, 0, WIDTH - 8, height))
    save(page, folder / f"{chart.name}.svg")
    write_atomically(folder / f"{chart.name}.csv", data_of(chart))
    said = words_of(chart, view)
    return ChartMade(
        chart=chart.name,
        beat=chart.beat.id,
        measure=chart.measure.label,
        title=said.title,
        alt=described(chart, view.format),
        rows_left_out=left_out(chart),
        hold_seconds=hold_seconds(said.title, said.subtitle),
        frames=list(frame_names(chart.name, view.frames, chart.hides)),
    )


def _frames(chart: Chart, view: ChartsView, folder: Path) -> None:
    """Each theme is drawn once: at both sizes, and in steps, it is the same figure."""
    sets = view.frames
    for name in ("light", "dark", "clear"):
        wanted = [times for times, kind in ((1, name), (2, f"{name}-4k")) if kind in sets]
        steps = name == "light" and "steps" in sets
        if not wanted and not steps:
            continue
        canvas = frame(chart, view, theme_of(view.theme, name))
        for times in wanted:
            ending = ("" if name == "light" else f".{name}") if times == 1 else f".{name}-4k"
            save(canvas, folder / f"{chart.name}{ending}.png", times)
        for number in range(1, STEPS + 1) if steps else ():
            canvas.show(number)
            save(canvas, folder / f"{chart.name}.step-{number}.png")
    if chart.hides:
        light = theme_of(view.theme, "light")
        hidden = frame(chart, view, light, blind=True)
        save(hidden, folder / f"{chart.name}.blind.png")
        save(frame(chart, view, light, still=True), folder / f"{chart.name}.reveal.png")
