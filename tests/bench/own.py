"""Ingest of tables of our own against pyarrow's own reading of them, and the memory of it.

The demo's matches many times over; costs are processor time of all threads.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.ball_tables import write_many
from tests.bench.clock import measured
from tests.bench.rows import BARE, INGEST, over

TIMES = 3, 31  # the demo's 326,000 deliveries: some million, and ten million
BARE_PARQUET = """
import sys
from pathlib import Path
from pyarrow import parquet
for file in Path(sys.argv[1]).iterdir():
    parquet.read_table(file)
"""


def figures(times: tuple[int, int] = TIMES) -> dict[str, float]:
    """Reading of the fewer against bare reading; processor seconds and peak of the many."""
    made: dict[str, float] = {}
    with tempfile.TemporaryDirectory() as temporary:
        root = Path(temporary)
        for form, reading in (("csv", BARE), ("parquet", BARE_PARQUET)):
            few, many = (root / f"{form}-{number}" for number in times)
            write_many(few, times[0], form)
            write_many(many, times[1], form)
            fewer, whole = (
                measured("-c", INGEST, str(each), str(root / "out"), "ball-tables")
                for each in (few, many)
            )
            made |= {
                f"own_vs_bare_{form}": over(fewer, measured("-c", reading, str(few))),
                f"own_{form}_ten_times_a_million": over(whole, fewer),
                f"own_{form}_processor_seconds": round(whole.processor_seconds, 2),
                f"own_{form}_peak_gb": round(whole.gigabytes, 2),
            }
    return made


if __name__ == "__main__":
    for name, figure in figures().items():
        print(f"{name:40} {figure}", flush=True)
