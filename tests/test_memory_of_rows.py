"""Two million rows are read in little memory, by a process of their own."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.ball_tables import write_many
from tests.bench.clock import measured
from tests.bench.rows import INGEST
from tests.rowfiles import write_row_table

MATCHES, MOST = 3_300, 0.6  # matches of some 620 deliveries; gigabytes


@pytest.mark.slow
def test_memory_does_not_grow_with_a_table(tmp_path: Path):
    """A third of its matches do not stand together, and wait on the disk."""
    path, out = tmp_path / "m.csv", tmp_path / "out"
    with path.open("w", encoding="utf-8") as file:
        write_row_table(file, MATCHES, late=True)
    assert measured("-c", INGEST, str(path), str(out), "delivery-csv").gigabytes < MOST
    report = json.loads((out / "report.json").read_text("utf-8"))
    assert report["matches"] == MATCHES and report["deliveries"] > 2_000_000
    assert report["odd"]["batters_in_for_nobody"]["count"] == 0


@pytest.mark.slow
@pytest.mark.parametrize("form", ["csv", "parquet"])
def test_memory_does_not_grow_with_tables_of_our_own(tmp_path: Path, form: str):
    count = write_many(tmp_path / "own", 7, form)
    out = tmp_path / "out"
    assert measured("-c", INGEST, str(tmp_path / "own"), str(out), "ball-tables").gigabytes < MOST
    report = json.loads((out / "report.json").read_text("utf-8"))
    assert report["deliveries"] == count > 2_000_000
