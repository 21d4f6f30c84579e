"""python -m pipeline.metrics --topic NAME --data FOLDER --out FOLDER: a topic's tallies."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pipeline.config import views
from pipeline.config.load import DEFAULT, load
from pipeline.errors import run_stage, write_atomically
from pipeline.metrics.tally import TALLIES, tally
from pipeline.tables import write_table


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.metrics", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--topic", required=True)
    parser.add_argument("--data", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    view = views.metrics(load(options.config, only=options.topic), options.topic)
    deliveries, matches = (str(options.data / f"{n}.parquet") for n in ("deliveries", "matches"))
    tallies, selection = tally(view, deliveries, matches)
    write_table(options.out / "tallies.parquet", tallies, TALLIES)
    text = json.dumps(selection, indent=1, ensure_ascii=False) + "\n"
    write_atomically(options.out / "selection.json", text)


if __name__ == "__main__":
    run_stage(main)
