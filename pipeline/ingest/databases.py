"""Rows of a query, block by block: of an SQLite or DuckDB file, or of a CSV or Parquet table.

SQLite is read by Python's own library, DuckDB by its own; which of the two is known from a file's
first bytes. Both are opened for reading only, and nothing but the file is within a query's reach:
what a source was made from is what its path names.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pyarrow as pa

from pipeline.errors import Problem, UserError
from pipeline.ingest.select_only import why_not

BLOCK = 50_000  # rows
HEADS = {0: {b"SQLite format 3\0": "sqlite", b"PAR1": "parquet"}, 8: {b"DUCK": "duckdb"}}
# What a program that writes a database leaves beside it while not all is in the file.
UNSAVED = ("-wal", "-journal", ".wal")


class Asked(NamedTuple):
    """The names of a query's columns, and its rows as blocks of them."""

    names: list[str]
    blocks: Iterator[pa.RecordBatch]


def kind_of(path: Path) -> str:
    """'sqlite', 'duckdb', 'parquet', or 'csv' for what is none of them, a folder or a zip too."""
    if not path.is_file():
        return "csv"
    with path.open("rb") as file:
        head = file.read(16)
    for start, marks in HEADS.items():
        for mark, kind in marks.items():
            if head[start:].startswith(mark):
                return kind
    return "csv"


def is_database(path: Path) -> bool:
    return kind_of(path) in ("sqlite", "duckdb")


def ask(path: Path, query: str, file: str) -> Asked:
    """The rows of a query in its order, with the types that the database gives them.

    Of a plain CSV or a Parquet file the query is FROM data; `file` is what it is called. Raises
    UserError for what is no SELECT with an order, for a database that is being written, and for
    whatever its library has against the query; while the blocks are read, too.
    """
    if reason := why_not(query):
        raise UserError(Problem(file, f"query: {reason}"))
    return rows_of(path, query, file)


def rows_of(path: Path, query: str, file: str) -> Asked:
    """The same of a query of our own, in whatever order."""
    kind = kind_of(path)
    check_saved(path, kind)
    return _reader(kind)(path, query, file)


def check_saved(path: Path, kind: str) -> None:
    """All of a database is in its file, whose content says whether it has changed."""
    if kind not in ("sqlite", "duckdb"):
        return
    for suffix in UNSAVED:
        beside = path.with_name(path.name + suffix)
        if beside.is_file() and beside.stat().st_size:
            message = (
                f"{beside.name} beside it holds what is not in it yet: close the program that "
                "writes it, or copy the database out of it, and try again"
            )
            raise UserError(Problem(str(path), message))


def _reader(kind: str) -> Callable[[Path, str, str], Asked]:
    if kind == "sqlite":
        from pipeline.ingest.sqlite_rows import ask_sqlite

        return ask_sqlite
    from pipeline.ingest.duckdb_rows import ask_duckdb

    return ask_duckdb
