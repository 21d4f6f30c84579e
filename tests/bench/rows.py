"""Ingest of rows against pyarrow's own reading of the same files, and the memory that it takes.

Costs are processor time of all threads; every ratio is of one run.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.bench.clock import Measured, measured
from tests.rowfiles import write_row_files, write_row_table

# Matches, of some 620 deliveries each: 10^5, 10^6 and 10^7 deliveries.
SIZES = FEW, MORE, MANY = 165, 1_650, 16_500
INGEST = """
import sys
from datetime import date
from pathlib import Path
from pipeline.config.project import Source
from pipeline.ingest.stage import ingest
more = dict(title="bench", publisher="nobody", licence="CC0-1.0", retrieved=date(2020, 1, 1))
source = Source(id="bench", path=sys.argv[1], layout=sys.argv[3], **more)
ingest(source, Path(sys.argv[2]))
"""
BARE = """
import sys
from pathlib import Path
from pyarrow import csv
path = Path(sys.argv[1])
for file in path.glob("*.csv") if path.is_dir() else [path]:
    if not file.name.endswith("_info.csv"):
        csv.read_csv(file)
"""


def figures() -> dict[str, float]:
    with tempfile.TemporaryDirectory() as temporary:
        root = Path(temporary)
        folder, table = root / "matches", root / "table.csv"
        made: dict[str, float] = {}
        taken: dict[int, Measured] = {}
        done = 0
        for size in SIZES:
            write_row_files(folder, size - done, first=done)
            done = size
            taken[size] = measured("-c", INGEST, str(folder), str(root / "out"), "delivery-csv")
            if size == MORE:
                bare = measured("-c", BARE, str(folder))
                made["rows_vs_bare_csv"] = over(taken[size], bare)
        bare = measured("-c", BARE, str(folder))
        with table.open("w", encoding="utf-8") as file:
            write_row_table(file, MANY)
        whole = measured("-c", INGEST, str(table), str(root / "out"), "delivery-csv")
        return {
            **made,
            "rows_vs_bare_csv_of_ten_million": over(taken[MANY], bare),
            "rows_processor_seconds": round(taken[MANY].processor_seconds, 2),
            "rows_ten_times_a_hundred_thousand": over(taken[MORE], taken[FEW]),
            "rows_ten_times_a_million": over(taken[MANY], taken[MORE]),
            "rows_peak_gb": round(taken[MANY].gigabytes, 2),
            "rows_peak_of_a_million_gb": round(taken[MORE].gigabytes, 2),
            "rows_of_one_table_processor_seconds": round(whole.processor_seconds, 2),
            "rows_of_one_table_peak_gb": round(whole.gigabytes, 2),
        }


def over(one: Measured, other: Measured) -> float:
    return round(one.processor_seconds / other.processor_seconds, 2)


if __name__ == "__main__":
    for name, figure in figures().items():
        print(f"{name:40} {figure}", flush=True)
