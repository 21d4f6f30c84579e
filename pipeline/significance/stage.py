"""Tallies into findings.json."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from pipeline.contracts.files import as_json, read_json
from pipeline.contracts.selection import Selection
from pipeline.errors import write_atomically
from pipeline.hashes import file_hash
from pipeline.ledger.book import read_ledger
from pipeline.significance.findings import find
from pipeline.tables import CLUSTERS, MIX, TALLIES, read_table

if TYPE_CHECKING:
    from pipeline.config.views import SignificanceView


def write_findings(view: SignificanceView, out: Path) -> None:
    """findings.json of the tallies in the topic's folder."""
    selection = read_json(out / "selection.json", Selection)
    tallies = read_table(out / "tallies.parquet", TALLIES).to_pandas()
    clusters = read_table(out / "clusters.parquet", CLUSTERS).to_pandas()
    mix = read_table(out / "mix.parquet", MIX).to_pandas()
    mark = fingerprint(out / "tallies.parquet")
    findings = find(view, selection, tallies, clusters, mark, mix, read_ledger(view.ledger))
    write_atomically(out / "findings.json", as_json(findings))


def fingerprint(tallies: Path) -> str:
    """Eight hex digits that say which tallies they are."""
    return file_hash(tallies)[:8]
