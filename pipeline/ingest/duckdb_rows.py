"""Rows of a DuckDB database, or of a CSV or Parquet table asked in SQL, in blocks.

One thread, so that rows that ORDER BY leaves equal come in the same order each time. No extension
is fetched or loaded, and no other file can be opened, whatever the query says.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import duckdb
import pyarrow as pa

from pipeline.errors import Problem, UserError, words_of
from pipeline.ingest import databases
from pipeline.sql import quoted

SETTINGS = {
    "threads": "1",
    "memory_limit": "512MB",
    "autoinstall_known_extensions": "false",
    "autoload_known_extensions": "false",
    "python_enable_replacements": "false",
}


def ask_duckdb(path: Path, query: str, file: str) -> databases.Asked:
    """The query's rows; `file` is what the table is called where something is wrong.

    Raises UserError for a database that can't be opened, or a query with a mistake.
    """
    spill = TemporaryDirectory(prefix="good-length-")
    try:
        db = _opened(path, spill.name, file)
        reader = db.sql(_select(db, query, file)).to_arrow_reader(databases.BLOCK)
    except duckdb.Error as error:
        spill.cleanup()
        raise _told(file, error) from None
    except UserError:
        spill.cleanup()
        raise
    return databases.Asked(list(reader.schema.names), _blocks(file, db, reader, spill))


def _opened(path: Path, spill: str, file: str) -> Any:
    """A connection with the file and nothing else within its reach."""
    settings: dict[str, Any] = {**SETTINGS, "temp_directory": spill}
    kind = databases.kind_of(path)
    if kind == "duckdb":
        db = duckdb.connect(str(path), read_only=True, config=settings)
    else:
        db = duckdb.connect(config=settings)
        db.execute(f"SET allowed_paths = [{quoted(path)}]")
        db.execute(f"CREATE TEMP VIEW data AS SELECT * FROM {_from(path, kind, file)}")
    db.execute("SET enable_external_access = false")
    db.execute("SET lock_configuration = true")
    return db


def _from(path: Path, kind: str, file: str) -> str:
    """A CSV's cells are text: read as a number, '0.10' would be '0.1'."""
    if kind == "parquet":
        return f"read_parquet({quoted(path)})"
    with path.open(encoding="utf-8-sig", newline="") as text:
        header = next(csv.reader(text), [])
    wrong = [name for name in header if header.count(name) > 1 or not name]
    if wrong or not header:
        message = "query: each of its columns needs a name of its own in the first line"
        raise UserError(Problem(file, message, 1, 1))
    columns = ", ".join(f"{quoted(name)}: 'VARCHAR'" for name in header)
    form = "header = true, auto_detect = false, delim = ',', quote = '\"', escape = '\"'"
    return f"read_csv({quoted(path)}, columns = {{{columns}}}, {form})"


def _select(db: Any, query: str, file: str) -> Any:
    statements = db.extract_statements(query)
    if len(statements) != 1 or statements[0].type != duckdb.StatementType.SELECT:
        raise UserError(Problem(file, "query: no SELECT; only reading is done here"))
    return statements[0]


def _blocks(
    file: str, db: Any, reader: pa.RecordBatchReader, spill: TemporaryDirectory[str]
) -> Iterator[pa.RecordBatch]:
    with spill:
        try:
            yield from reader
        except (duckdb.Error, pa.ArrowException, OSError) as error:
            raise _told(file, error) from None
        finally:
            db.close()


def _told(file: str, error: Exception) -> UserError:
    return UserError(Problem(file, f"query: {words_of(error)}"))
