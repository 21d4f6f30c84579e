"""Every chart of a topic, in one process."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from pipeline.charts.compose import charts_of, render
from pipeline.charts.contact import contact_sheet
from pipeline.charts.theme import theme_of
from pipeline.config.frame_files import SHEET
from pipeline.contracts.facts import Charts
from pipeline.contracts.files import as_json, read_json
from pipeline.contracts.findings import Findings
from pipeline.errors import write_atomically

if TYPE_CHECKING:
    from pipeline.config.views import ChartsView


def write_charts(view: ChartsView, out: Path) -> None:
    """Every chart of the findings in the topic's folder, and the sheet of all frames."""
    findings = read_json(out / "findings.json", Findings)
    folder = out / "charts"
    made = [render(chart, view, folder) for chart in charts_of(view, findings)]
    frames = [name for chart in made for name in chart.frames]
    contact_sheet(frames, theme_of(view.theme, "light"), folder, folder / SHEET)
    write_atomically(folder / "charts.json", as_json(Charts(charts=made)))
