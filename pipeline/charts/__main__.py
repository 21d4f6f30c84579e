"""python -m pipeline.charts --topic NAME --out FOLDER: every chart of a topic, in one process."""

from __future__ import annotations

import json
from pathlib import Path

from pipeline.charts.compose import charts_of, render
from pipeline.charts.contact import contact_sheet
from pipeline.command import topic_call
from pipeline.config import views
from pipeline.config.frame_files import SHEET
from pipeline.errors import run_stage, write_atomically


def main() -> None:
    call = topic_call("charts", __doc__, views.charts)
    write_charts(call.view, call.out)


def write_charts(view: views.View, out: Path) -> None:
    """Every chart of the findings in the topic's folder, and the sheet of all frames."""
    findings = json.loads((out / "findings.json").read_text("utf-8"))
    folder = out / "charts"
    made = [render(chart, view, findings, folder) for chart in charts_of(view, findings)]
    contact_sheet(made, view, folder, folder / SHEET)
    text = json.dumps(made, indent=1, ensure_ascii=False) + "\n"
    write_atomically(folder / "charts.json", text)


if __name__ == "__main__":
    run_stage(main)
