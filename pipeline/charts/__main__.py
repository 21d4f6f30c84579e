"""python -m pipeline.charts --topic NAME --out FOLDER: every chart of a topic, in one process."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pipeline.charts.compose import charts_of, render
from pipeline.config import views
from pipeline.config.load import DEFAULT, load
from pipeline.errors import run_stage, write_atomically


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.charts", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--topic", required=True)
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    view = views.charts(load(options.config, only=options.topic), options.topic)
    findings = json.loads((options.out / "findings.json").read_text("utf-8"))
    folder = options.out / "charts"
    made = [render(chart, view, findings, folder) for chart in charts_of(view, findings)]
    text = json.dumps(made, indent=1, ensure_ascii=False) + "\n"
    write_atomically(folder / "charts.json", text)


if __name__ == "__main__":
    run_stage(main)
