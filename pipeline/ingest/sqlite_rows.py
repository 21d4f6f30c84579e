"""Rows of an SQLite database as blocks of text, read by Python's own library.

A column of SQLite has no type, each cell has; as text they are alike, and as a CSV would hold them.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pyarrow as pa

from pipeline.errors import Problem, UserError, words_of
from pipeline.ingest import databases

WRONG = (sqlite3.Error, sqlite3.Warning, UnicodeDecodeError)  # the last of a damaged name
ALLOWED = frozenset(
    {sqlite3.SQLITE_SELECT, sqlite3.SQLITE_READ, sqlite3.SQLITE_FUNCTION, sqlite3.SQLITE_RECURSIVE}
)


def opened(path: Path) -> sqlite3.Connection:
    """A connection that only reads, leaves no file beside the database, and loads nothing."""
    found = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro&immutable=1", uri=True)
    try:
        found.execute("PRAGMA trusted_schema = OFF")
        found.set_authorizer(_only_reads)
    except WRONG:
        found.close()
        raise
    return found


def _only_reads(action: int, first: str | None, second: str | None, *_: object) -> int:
    loads = action == sqlite3.SQLITE_FUNCTION and second == "load_extension"
    return sqlite3.SQLITE_OK if action in ALLOWED and not loads else sqlite3.SQLITE_DENY


def ask_sqlite(path: Path, query: str, file: str) -> databases.Asked:
    """The query's rows; `file` is what the database is called where something is wrong."""
    try:
        db = opened(path)
    except WRONG as error:
        raise _told(file, error) from None
    try:
        cursor = db.execute(query)
    except WRONG as error:
        db.close()
        raise _told(file, error) from None
    names = [column[0] for column in cursor.description]
    return databases.Asked(names, _blocks(file, db, cursor, names))


def _blocks(
    file: str, db: sqlite3.Connection, cursor: sqlite3.Cursor, names: list[str]
) -> Iterator[pa.RecordBatch]:
    with closing(db):
        while True:
            try:
                rows = cursor.fetchmany(databases.BLOCK)
            except WRONG as error:
                raise _told(file, error) from None
            if not rows:
                return
            columns = zip(*rows, strict=True)
            arrays = [_text(cells, file, name) for cells, name in zip(columns, names, strict=True)]
            yield pa.RecordBatch.from_arrays(arrays, names)


def _text(cells: tuple[Any, ...], file: str, name: str) -> pa.Array:
    """A column as text: whole numbers without a point, a null as a null."""
    try:
        return pa.array(cells, pa.string())
    except (pa.ArrowInvalid, pa.ArrowTypeError):
        pass
    try:
        return pa.array([None if cell is None else _cell(cell) for cell in cells], pa.string())
    except UnicodeDecodeError as error:
        message = f"query: column '{name}' holds bytes that are no UTF-8 text ({error.reason})"
        raise UserError(Problem(file, message)) from None


def _cell(cell: Any) -> str:
    if isinstance(cell, bytes):
        return cell.decode("utf-8")
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return str(cell)


def _told(file: str, error: Exception) -> UserError:
    said = words_of(error)
    if said == "not authorized":
        said = "only reading is done here"
    return UserError(Problem(file, f"query: {said}"))
