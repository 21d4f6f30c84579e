"""python -m pipeline.significance --topic NAME --out FOLDER: tallies into findings.json."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pipeline.config import views
from pipeline.config.load import DEFAULT, load
from pipeline.errors import run_stage, write_atomically
from pipeline.metrics.tally import TALLIES
from pipeline.provenance import file_hash
from pipeline.significance.findings import find
from pipeline.tables import read_table


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m pipeline.significance", description=__doc__)
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--topic", required=True)
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    view = views.significance(load(options.config, only=options.topic), options.topic)
    selection = json.loads((options.out / "selection.json").read_text("utf-8"))
    tallies = read_table(options.out / "tallies.parquet", TALLIES).to_pandas()
    findings = find(view, selection, tallies)
    findings["data"]["fingerprint"] = file_hash(options.out / "tallies.parquet")[:8]
    text = json.dumps(findings, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    write_atomically(options.out / "findings.json", text)


if __name__ == "__main__":
    run_stage(main)
