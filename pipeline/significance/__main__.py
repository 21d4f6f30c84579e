"""python -m pipeline.significance --topic NAME --out FOLDER: tallies into findings.json."""

from __future__ import annotations

import json

from pipeline.command import topic_call
from pipeline.config import views
from pipeline.errors import run_stage, write_atomically
from pipeline.provenance import file_hash
from pipeline.significance.findings import find
from pipeline.tables import TALLIES, read_table


def main() -> None:
    call = topic_call("significance", __doc__, views.significance)
    selection = json.loads((call.out / "selection.json").read_text("utf-8"))
    tallies = read_table(call.out / "tallies.parquet", TALLIES).to_pandas()
    findings = find(call.view, selection, tallies)
    findings["data"]["fingerprint"] = file_hash(call.out / "tallies.parquet")[:8]
    text = json.dumps(findings, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    write_atomically(call.out / "findings.json", text)


if __name__ == "__main__":
    run_stage(main)
