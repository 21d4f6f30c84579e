"""Two million rows are read in little memory, by a process of their own."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.ball_tables import write_many
from tests.bench.clock import measured
from tests.bench.rows import INGEST
from tests.many import DELIVERIES, MATCHES, OWN, ROWS, TIMES_OWN

MOST = 0.6  # gigabytes


@pytest.mark.slow
def test_memory_does_not_grow_with_a_table(many: Path, tmp_path: Path):
    """A third of its matches do not stand together, and wait on the disk."""
    out = tmp_path / "out"
    assert measured("-c", INGEST, str(many / ROWS), str(out), "delivery-csv").gigabytes < MOST
    report = json.loads((out / "report.json").read_text("utf-8"))
    assert report["matches"] == MATCHES and report["deliveries"] > DELIVERIES
    assert report["odd"]["batters_in_for_nobody"]["count"] == 0


@pytest.mark.slow
@pytest.mark.parametrize("form", ["csv", "parquet"])
def test_memory_does_not_grow_with_tables_of_our_own(many: Path, tmp_path: Path, form: str):
    own, out = many / OWN, tmp_path / "out"
    with (own / "deliveries.csv").open("rb") as file:
        count = sum(1 for _ in file) - 1
    if form == "parquet":
        own = tmp_path / "own"
        assert write_many(own, TIMES_OWN, form) == count
    assert measured("-c", INGEST, str(own), str(out), "ball-tables").gigabytes < MOST
    report = json.loads((out / "report.json").read_text("utf-8"))
    assert report["deliveries"] == count > DELIVERIES
