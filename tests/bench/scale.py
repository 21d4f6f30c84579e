"""Archives of a hundred thousand to ten million deliveries, read and cleaned: what it costs.

Costs are processor time of all processes, so that a busy machine and the number of its cores change
them little; every ratio is of one run.
"""

from __future__ import annotations

import shutil
import tempfile
import zipfile
from pathlib import Path
from typing import Literal

from tests.bench import tallies
from tests.bench.clock import Measured, measured
from tests.matchfiles import write_match_files

# Matches, of some 620 deliveries each: 10^5, 10^6 and 10^7 deliveries.
SIZES = FEW, MORE, MANY = 165, 1_650, 16_500
TEN_THOUSAND = 10_000
HEAD = """
import sys
from datetime import date
from pathlib import Path
from pipeline.config.project import Project, Source
more = dict(title="bench", publisher="nobody", licence="CC0-1.0", retrieved=date(2020, 1, 1))
source = Source(id="bench", path=sys.argv[1], layout="match-json", **more)
out = Path(sys.argv[2])
"""
INGEST = f"""{HEAD}
from pipeline.ingest.stage import ingest
ingest(source, out / "bench")
"""
CLEAN = f"""{HEAD}
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
clean(views.clean(Config(out, Project(title="bench"), {{"bench": source}}, {{}}, {{}})), out)
"""
# The clean tables written once more by the same database, as they are.
COPY = """
import sys
from pathlib import Path
import duckdb
duckdb.execute("SET enable_progress_bar = false")
for path in Path(sys.argv[1]).glob("*.parquet"):
    duckdb.execute(
        f"COPY (SELECT * FROM '{path}') TO '{path}.copy' (FORMAT parquet, COMPRESSION zstd)"
    )
"""


def figures() -> dict[str, float]:
    with tempfile.TemporaryDirectory() as temporary:
        root = Path(temporary)
        folder, done, ingested, cleaned = root / "matches", 0, {}, {}
        made: dict[str, float] = {}
        for count in SIZES:
            if count == MANY:
                done, made = TEN_THOUSAND + 1, made | _one_more(root, folder, done)
            write_match_files(folder, count, first=done)
            done = count
            archive, out = _zipped(folder, root / f"{count}.zip"), root / f"out-{count}"
            ingested[count] = measured("-c", INGEST, str(archive), str(out))
            cleaned[count] = measured("-c", CLEAN, str(archive), str(out))
            if count == MORE:
                made |= _beside_the_database(root, folder, ingested[count])
        decode = measured("-m", "tests.bench.decode", str(archive))
        copied = measured("-c", COPY, str(out))
        made["ingest_vs_bare_decode"] = _over(ingested[MANY], decode)
        made["clean_vs_copy"] = _over(cleaned[MANY], copied)
        made |= _growth("ingest", ingested) | _growth("clean", cleaned) | _of_a_folder(root, folder)
        shutil.rmtree(folder)
        return {**made, **tallies.figures(root)}


def _zipped(folder: Path, path: Path, mode: Literal["w", "a"] = "w", names: str = "*") -> Path:
    """The files in an archive, as they are had."""
    with zipfile.ZipFile(path, mode, zipfile.ZIP_DEFLATED, compresslevel=1) as archive:
        for file in sorted(folder.glob(names)):
            archive.write(file, file.name)
    return path


def _one_more(root: Path, folder: Path, done: int) -> dict[str, float]:
    """one_more_match_vs_all: ingest again after a file was added to ten thousand."""
    out = root / "growing"
    write_match_files(folder, TEN_THOUSAND, first=done)
    archive = _zipped(folder, root / "growing.zip")
    whole = measured("-c", INGEST, str(archive), str(out))
    write_match_files(folder, TEN_THOUSAND + 1, first=TEN_THOUSAND)
    _zipped(folder, archive, "a", f"*{TEN_THOUSAND}.json")
    return {"one_more_match_vs_all": _over(measured("-c", INGEST, str(archive), str(out)), whole)}


def _of_a_folder(root: Path, folder: Path) -> dict[str, float]:
    """The same of files that are in no archive: each must be read to know that it is as it was."""
    out = str(root / "of-a-folder")
    whole, again = (measured("-c", INGEST, str(folder), out) for _ in range(2))
    decode = measured("-m", "tests.bench.decode", str(folder))
    return {
        "ingest_vs_bare_decode_of_a_folder": _over(whole, decode),
        "nothing_new_vs_all_of_a_folder": _over(again, whole),
    }


def _beside_the_database(root: Path, folder: Path, ours: Measured) -> dict[str, float]:
    """The same files by DuckDB's own reader of JSON, at a million deliveries."""
    out = root / "database"
    out.mkdir()
    database = measured("-m", "tests.bench.database", str(folder), str(out))
    ratio = database.processor_seconds / ours.processor_seconds
    return {
        "ingest_vs_database_reader": round(ratio, 2),
        "database_reader_peak_gb": round(database.gigabytes, 2),
    }


def _growth(stage: str, taken: dict[int, Measured]) -> dict[str, float]:
    """Of ten million deliveries, and how the cost grows to them by tens."""
    few, more, many = (taken[count] for count in SIZES)
    return {
        f"{stage}_seconds": round(many.seconds, 2),
        f"{stage}_processor_seconds": round(many.processor_seconds, 2),
        f"{stage}_ten_times_a_hundred_thousand": _over(more, few),
        f"{stage}_ten_times_a_million": _over(many, more),
        f"{stage}_peak_gb": round(many.gigabytes, 2),
        f"{stage}_peak_of_a_million_gb": round(more.gigabytes, 2),
    }


def _over(one: Measured, other: Measured) -> float:
    return round(one.processor_seconds / other.processor_seconds, 3)
