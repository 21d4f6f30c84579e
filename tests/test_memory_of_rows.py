"""Two million rows are read in little memory, by a process of their own, in and out of order."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.rows import INGEST, cost
from tests.rowfiles import write_row_table

pytestmark = pytest.mark.slow
MATCHES, MOST = 3_300, 0.75  # matches of some 620 deliveries; gigabytes


def test_memory_does_not_grow_with_a_table(tmp_path: Path):
    path = tmp_path / "m.csv"
    with path.open("w", encoding="utf-8") as file:
        write_row_table(file, MATCHES)
    assert cost("-c", INGEST, str(path), str(tmp_path / "out")).gigabytes < MOST
    header, *rows = path.read_text("utf-8").splitlines(keepends=True)
    assert len(rows) > 2_000_000
    half = len(rows) // 2  # of every match one half comes late
    path.write_text("".join([header, *rows[::2][:half], *rows[1::2]]), "utf-8")
    assert cost("-c", INGEST, str(path), str(tmp_path / "out")).gigabytes < MOST
