"""Thousands of match files: ingest against a database's reader and bare decoding; tallies."""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.bench import tallies
from tests.bench.clock import measured
from tests.matchfiles import write_match_files

FEW, MANY = 2_000, 10_000
INGEST = """
import sys
from datetime import date
from pathlib import Path
from pipeline.config.project import Source
from pipeline.ingest.stage import ingest
more = dict(title="bench", publisher="nobody", licence="CC0-1.0", retrieved=date(2020, 1, 1))
ingest(Source(id="bench", path=sys.argv[1], layout="match-json", **more), Path(sys.argv[2]))
"""


def figures() -> dict[str, float]:
    with tempfile.TemporaryDirectory() as temporary:
        root = Path(temporary)
        folders = {count: str(root / str(count)) for count in (FEW, MANY)}
        for count, folder in folders.items():
            write_match_files(Path(folder), count)
        out = str(root / "out")
        few, few_gb = measured("-c", INGEST, folders[FEW], out)
        many, many_gb = measured("-c", INGEST, folders[MANY], out)
        database, database_gb = measured("-m", "tests.bench.database", folders[MANY], out)
        decode, _ = measured("-m", "tests.bench.decode", folders[MANY])
        single, _ = measured("-m", "tests.bench.decode", folders[MANY], "1")
        made = {
            "ingest_seconds": round(many, 2),
            "ingest_vs_database_reader": round(database / many, 2),
            "ingest_vs_bare_decode": round(many / decode, 2),
            "ingest_vs_bare_decode_on_one_core": round(many / single, 2),
            "ingest_five_times_the_matches": round(many / few, 2),
            "ingest_peak_gb": round(many_gb, 2),
            "ingest_peak_of_fewer_gb": round(few_gb, 2),
            "database_reader_peak_gb": round(database_gb, 2),
        }
        return {**made, **tallies.figures(root)}
