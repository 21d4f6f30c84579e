"""python -m pipeline.metrics --topic NAME --data FOLDER --out FOLDER: a topic's tallies."""

from __future__ import annotations

import json

from pipeline.command import topic_call
from pipeline.config import views
from pipeline.errors import run_stage, write_atomically
from pipeline.metrics.tally import tally
from pipeline.tables import TALLIES, played, write_table


def main() -> None:
    call = topic_call("metrics", __doc__, views.metrics)
    corrections = json.loads((call.data / "corrections.json").read_text("utf-8"))
    tallies, selection = tally(call.view, played(call.data), corrections)
    write_table(call.out / "tallies.parquet", tallies, TALLIES)
    text = json.dumps(selection, indent=1, ensure_ascii=False) + "\n"
    write_atomically(call.out / "selection.json", text)


if __name__ == "__main__":
    run_stage(main)
