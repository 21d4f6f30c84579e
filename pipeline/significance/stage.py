"""Tallies into findings.json."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pipeline.errors import write_atomically
from pipeline.provenance import file_hash
from pipeline.significance.findings import find
from pipeline.tables import TALLIES, read_table

View = dict[str, Any]


def write_findings(view: View, out: Path) -> None:
    """findings.json of the tallies in the topic's folder."""
    selection = json.loads((out / "selection.json").read_text("utf-8"))
    tallies = read_table(out / "tallies.parquet", TALLIES).to_pandas()
    findings = find(view, selection, tallies)
    findings["data"]["fingerprint"] = file_hash(out / "tallies.parquet")[:8]
    text = json.dumps(findings, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    write_atomically(out / "findings.json", text)
