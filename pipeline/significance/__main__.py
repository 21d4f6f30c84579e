"""python -m pipeline.significance --topic NAME --out FOLDER: tallies into findings.json."""

from __future__ import annotations

import json
from pathlib import Path

from pipeline.command import topic_call
from pipeline.config import views
from pipeline.errors import run_stage, write_atomically
from pipeline.provenance import file_hash
from pipeline.significance.findings import find
from pipeline.tables import TALLIES, read_table


def main() -> None:
    call = topic_call("significance", __doc__, views.significance)
    write_findings(call.view, call.out)


def write_findings(view: views.View, out: Path) -> None:
    """findings.json of the tallies in the topic's folder."""
    selection = json.loads((out / "selection.json").read_text("utf-8"))
    tallies = read_table(out / "tallies.parquet", TALLIES).to_pandas()
    findings = find(view, selection, tallies)
    findings["data"]["fingerprint"] = file_hash(out / "tallies.parquet")[:8]
    text = json.dumps(findings, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    write_atomically(out / "findings.json", text)


if __name__ == "__main__":
    run_stage(main)
