"""A database of bounded memory with the sources' raw tables, and what was played in them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import duckdb
import pyarrow as pa

from pipeline.batches import TABLES, files_of
from pipeline.clean.merge import DROPPED, KEPT, KEPT_INNINGS
from pipeline.database import connect
from pipeline.processors import available
from pipeline.scratch import scratch
from pipeline.sql import quoted, quoted_list

MEMORY = "400MB"  # of the database; what it can't hold goes to the disk
MOST_THREADS = 4  # each writes rows of its own, which take memory that is not of the database's


@contextmanager
def database(beside: Path, threads: int | None = None) -> Iterator[duckdb.DuckDBPyConnection]:
    """An empty database whose memory is bounded, whatever the machine has.

    What it can't hold goes into a folder called as `beside` is, which is gone afterwards.
    """
    threads = min(threads or available(), MOST_THREADS)
    with (
        scratch(beside) as folder,
        connect(threads, memory_limit=MEMORY, temp_directory=str(folder)) as db,
    ):
        yield db


@contextmanager
def as_written(db: duckdb.DuckDBPyConnection) -> Iterator[None]:
    """Rows come out in the order in which they are read.

    Joins stay as the query has them, so that the left rows go through and the right are held (else
    few deliveries would be held instead); and one thread works, since several mix up the files.
    """
    threads = db.execute("SELECT current_setting('threads')").fetchall()[0][0]
    db.execute("SET disabled_optimizers = 'join_order,build_side_probe_side'")
    db.execute("SET threads = 1")
    yield
    db.execute(f"SET threads = {threads}")
    db.execute("RESET disabled_optimizers")


def open_sources(db: duckdb.DuckDBPyConnection, folders: dict[str, Path]) -> None:
    """The raw tables of all sources (id -> folder), and the kept matches and innings."""
    for name in TABLES:
        parts = [
            _tagged(folder, name, source, order)
            for order, (source, folder) in enumerate(folders.items())
        ]
        db.execute(f"CREATE VIEW raw_{name} AS {' UNION ALL '.join(parts)}")
    run(db, KEPT, DROPPED, KEPT_INNINGS)


def run(db: duckdb.DuckDBPyConnection, *statements: str) -> None:
    for statement in statements:
        db.execute(statement)


def put(db: duckdb.DuckDBPyConnection, name: str, table: pa.Table) -> None:
    """An Arrow table as a table of the database; coded columns as text."""
    plain = [
        field.with_type(pa.string()) if isinstance(field.type, pa.DictionaryType) else field
        for field in table.schema
    ]
    db.register("given", table.cast(pa.schema(plain)))
    db.execute(f"CREATE OR REPLACE TABLE {name} AS SELECT * FROM given")
    db.unregister("given")


def _tagged(folder: Path, table: str, source: str, order: int) -> str:
    """With its source and that one's place among the sources."""
    facts = f"{quoted(source)} AS source, " if table != "matches" else ""
    return f"SELECT *, {facts}{order} AS source_order FROM {_read(folder, table)}"


def _read(folder: Path, table: str) -> str:
    """A source's table, all batches of it in their order."""
    return f"read_parquet([{quoted_list(files_of(folder, table))}])"


def kept_rows(db: duckdb.DuckDBPyConnection, folders: dict[str, Path], table: str) -> str:
    """A query of a table's rows, without those of copies that were not kept."""
    dropped = {row[0] for row in db.execute("SELECT DISTINCT source FROM dropped").fetchall()}
    parts = []
    for name, folder in folders.items():
        there = f"SELECT * FROM {_read(folder, table)}"
        others = f"(SELECT match_id FROM dropped WHERE source = {quoted(name)})"
        parts.append(f"{there} ANTI JOIN {others} USING (match_id)" if name in dropped else there)
    return " UNION ALL ".join(parts)
