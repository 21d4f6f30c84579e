"""python -m pipeline.metrics --topic NAME --data FOLDER --out FOLDER: a topic's tallies."""

from __future__ import annotations

import json
from pathlib import Path

from pipeline.command import topic_call
from pipeline.config import views
from pipeline.errors import run_stage, write_atomically
from pipeline.metrics.tally import tally
from pipeline.tables import TALLIES, played, write_table


def main() -> None:
    call = topic_call("metrics", __doc__, views.metrics)
    write_tallies(call.view, call.out, call.data)


def write_tallies(view: views.View, out: Path, data: Path) -> None:
    """The topic's tallies and what was selected, from the clean tables in `data`."""
    corrections = json.loads((data / "corrections.json").read_text("utf-8"))
    tallies, selection = tally(view, played(data), corrections)
    write_table(out / "tallies.parquet", tallies, TALLIES)
    text = json.dumps(selection, indent=1, ensure_ascii=False) + "\n"
    write_atomically(out / "selection.json", text)


if __name__ == "__main__":
    run_stage(main)
