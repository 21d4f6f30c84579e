"""The tables of the layout `ball-tables`, written as they come."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path
from typing import Protocol

import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.csv as pacsv
import pyarrow.parquet as pq

from pipeline.errors import named
from pipeline.ingest.ball_tables.contract import Table
from pipeline.ingest.ball_tables.match_contract import TABLES

QUOTED = r'[",\r\n]'


class Writer(Protocol):
    """What takes one table's rows, some at a time."""

    def write(self, rows: pa.Table) -> None: ...


class TableWriters:
    """A file a table in a folder, in one form ('csv' or 'parquet'); use it in a `with` block."""

    def __init__(self, folder: Path, form: str):
        self._folder, self._form = folder, form
        self._files = ExitStack()
        self._writers: dict[str, Writer] = {}
        self.rows = dict.fromkeys(TABLES, 0)

    def __enter__(self) -> TableWriters:
        make = CsvWriter if self._form == "csv" else ParquetWriter
        for table in TABLES.values():
            writer: Writer = make(self.path(table.name), table, self._files)
            self._writers[table.name] = writer
        return self

    def __exit__(self, *error: object) -> None:
        self._files.close()

    def path(self, name: str) -> Path:
        return self._folder / f"{name}.{self._form}"

    def write(self, name: str, rows: pa.Table) -> None:
        """Rows of a table of `pipeline.tables`; columns that follow from others are left away."""
        table = TABLES[name]
        chosen = rows.select(table.names).cast(table.narrow())
        with named(self.path(name)):
            self._writers[name].write(chosen)
        self.rows[name] += chosen.num_rows


class CsvWriter:
    """Cells as a person would write them: 1 and 0 for flags, quotation marks where they must be."""

    def __init__(self, path: Path, table: Table, files: ExitStack):
        self._file = files.enter_context(path.open("wb"))
        self._file.write((",".join(table.names) + "\n").encode())

    def write(self, rows: pa.Table) -> None:
        plain = pa.table({name: _cells(rows[name]) for name in rows.column_names})
        style = "needed" if any(map(_needs_quotes, plain.columns)) else "none"
        options = pacsv.WriteOptions(include_header=False, quoting_style=style)
        pacsv.write_csv(plain, self._file, options)


class ParquetWriter:
    """Row groups as they come."""

    def __init__(self, path: Path, table: Table, files: ExitStack):
        self._writer = files.enter_context(
            pq.ParquetWriter(path, table.narrow(), compression="zstd")
        )

    def write(self, rows: pa.Table) -> None:
        if rows.num_rows:
            self._writer.write_table(rows)


def _cells(column: pa.ChunkedArray) -> pa.ChunkedArray:
    if pa.types.is_boolean(column.type):
        return column.cast(pa.int8())
    return column.cast(pa.string()) if pa.types.is_dictionary(column.type) else column


def _needs_quotes(column: pa.ChunkedArray) -> bool:
    if not pa.types.is_string(column.type):
        return False
    return bool(pc.any(pc.match_substring_regex(column, QUOTED)).as_py())
