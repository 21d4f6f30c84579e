"""python -m pipeline.charts --topic NAME --out FOLDER: every chart of a topic, in one process."""

from __future__ import annotations

import json

from pipeline.charts.compose import charts_of, render
from pipeline.charts.contact import contact_sheet
from pipeline.command import topic_call
from pipeline.config import views
from pipeline.config.frames import SHEET
from pipeline.errors import run_stage, write_atomically


def main() -> None:
    call = topic_call("charts", __doc__, views.charts)
    findings = json.loads((call.out / "findings.json").read_text("utf-8"))
    folder = call.out / "charts"
    made = [render(chart, call.view, findings, folder) for chart in charts_of(call.view, findings)]
    contact_sheet(made, call.view, folder, folder / SHEET)
    text = json.dumps(made, indent=1, ensure_ascii=False) + "\n"
    write_atomically(folder / "charts.json", text)


if __name__ == "__main__":
    run_stage(main)
