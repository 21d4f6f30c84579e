"""Cells of a file into the types of their columns, a block at a time.

What the types of Arrow take is read by Arrow alone. Where they refuse a cell, the rest of the file
is read as text, in which each cell can be told from the others: a mistake then has its row.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.csv as pacsv
import pyarrow.parquet as pq

from pipeline.errors import did_you_mean, words_of
from pipeline.ingest.ball_tables.contract import Column
from pipeline.ingest.ball_tables.table_files import TORN, TableFile
from pipeline.ingest.csv_by_line import check_lengths, check_text, header_of

BLOCK = 4 * 1024 * 1024  # bytes of a CSV
ROWS = 65_536  # of a Parquet table
YES, NO = ["1", "true", "True", "TRUE"], ["0", "false", "False", "FALSE"]
SHAPES = {
    "count": r"^\s*[0-9]{1,6}(\.0*)?\s*$",  # 12.0: software that knows no blank whole number
    "flag": r"^\s*(?i:1|0|true|false|1\.0|0\.0)\s*$",
    "day": r"^\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*$",
}
# What Parquet may hold in them; Arrow would also take a number for a day, and 0x10 for 16.
_NUMBERS = (pa.types.is_integer, pa.types.is_floating, pa.types.is_decimal, pa.types.is_null)
FITTING = {
    "count": _NUMBERS,
    "flag": (*_NUMBERS, pa.types.is_boolean),
    "day": (pa.types.is_date, pa.types.is_timestamp, pa.types.is_null),
}
_EPOCH = date(1970, 1, 1).toordinal()  # Arrow counts days from then
FIRST_DAY, LAST_DAY = (day.toordinal() - _EPOCH for day in (date.min, date.max))
Unread = dict[str, list[tuple[int, str]]]


class Block(NamedTuple):
    """Some rows of a file from row `first` on (counted from 0), under the names of the contract.

    `unread` are, by column, the rows of it whose cell could not be read, and each as it stands.
    """

    first: int
    table: pa.Table
    unread: Unread


def read_blocks(file: TableFile) -> Iterator[Block]:
    """A file's blocks in order; cells are null where they are blank or could not be read.

    Raises UserError with the line for a file that is no table, and for one whose header lacks a
    column that is needed or holds one that the layout has not.
    """
    read = _csv_blocks if file.form == "csv" else _parquet_blocks
    done = row = 0
    try:
        for table in read(file, typed=True):
            yield Block(done, table, {})
            done += table.num_rows
        return
    except pa.ArrowException:
        pass  # of one cell, or of the whole file: asked again as text
    try:
        for text in read(file, typed=False):
            before = max(0, done - row)  # rows that have been read already
            if before < text.num_rows:
                yield _of_text(file, text.slice(before), row + before)
            row += text.num_rows
    except pa.ArrowException as error:
        raise file.unread(f"not a readable {file.form} table: {words_of(error)}") from None
    except TORN as error:
        raise file.unread(f"damaged ({error}); fetch it again") from None


def _csv_blocks(file: TableFile, typed: bool) -> Iterator[pa.Table]:
    header = _header(file)
    types = {
        column.name: file.table.arrow(column) if typed else pa.string()
        for column in _given(file, header)
    }
    convert = pacsv.ConvertOptions(
        column_types=types,
        include_columns=list(types),
        null_values=[""],
        true_values=YES,
        false_values=NO,
        strings_can_be_null=True,
        quoted_strings_can_be_null=True,
    )
    parse = pacsv.ParseOptions(newlines_in_values=True)
    with file.opened() as opened:
        try:
            how = pacsv.ReadOptions(block_size=BLOCK, use_threads=False)
            reader = pacsv.open_csv(opened, how, parse, convert)
            for batch in reader:
                if typed:
                    _check_days(batch)
                yield pa.Table.from_batches([batch])
        except pa.ArrowException:
            if not typed:
                check_text(file.opened, file.label)
                check_lengths(file.opened, file.label, header)
            raise


def _parquet_blocks(file: TableFile, typed: bool) -> Iterator[pa.Table]:
    with file.opened() as opened:
        schema = pq.ParquetFile(opened).schema_arrow
        given = _given(file, schema.names)
        large = given if file.table.large else []
        coded = [c.name for c in large if pa.types.is_string(schema.field(c.name).type)]
        parquet = pq.ParquetFile(opened, read_dictionary=coded)
        names = [column.name for column in given]
        for batch in parquet.iter_batches(ROWS, columns=names):
            cells = {
                column.name: _typed(batch[column.name], column, file)
                if typed
                else _plain(batch[column.name])
                for column in given
            }
            rows = pa.table(cells)
            if typed:
                _check_days(rows)
            yield rows


def _check_days(rows: pa.Table | pa.RecordBatch) -> None:
    """Raises ArrowInvalid for days that Arrow reads and no calendar of ours has."""
    for name, kind in zip(rows.schema.names, rows.schema.types, strict=True):
        if pa.types.is_date32(kind):
            ends = pc.min_max(rows[name].cast(pa.int32())).as_py()
            if ends["min"] is not None and not FIRST_DAY <= ends["min"] <= ends["max"] <= LAST_DAY:
                raise pa.ArrowInvalid("no days")


def _typed(cells: pa.Array, column: Column, file: TableFile) -> pa.Array:
    """Cells of Parquet in the type of our column; raises ArrowInvalid where one does not fit."""
    kind = file.table.arrow(column)
    if column.holds == "text":
        coded = pa.types.is_dictionary(kind)
        if coded and cells.type == kind and "" not in cells.dictionary.to_pylist():
            return cells
        plain = _plain(cells)
        return plain.dictionary_encode() if coded else plain
    if not any(fits(cells.type) for fits in FITTING[column.holds]):
        raise pa.ArrowInvalid(f"no {column.holds}s")
    if column.holds == "flag" and not set(cells.unique().to_pylist()) <= {0, 1, None}:
        raise pa.ArrowInvalid("no flags")
    return cells.cast(kind)


def _plain(cells: pa.Array) -> pa.Array:
    """Cells of Parquet as the text that a CSV of them would hold; a blank one is null."""
    if pa.types.is_dictionary(cells.type):
        cells = cells.cast(cells.type.value_type)
    text = cells.cast(pa.string())
    if pa.types.is_floating(cells.type) or pa.types.is_decimal(cells.type):
        text = pc.replace_substring_regex(text, r"\.0*$", "")
    if pa.types.is_timestamp(cells.type):
        text = pc.replace_substring_regex(text, r"[ T]00:00:00(\.0*)?$", "")
    return pc.if_else(pc.equal(text, ""), pa.scalar(None, pa.string()), text)


def _header(file: TableFile) -> list[str]:
    try:
        return header_of(file.opened, file.label)
    except UnicodeDecodeError:
        check_text(file.opened, file.label)
        raise


def _given(file: TableFile, header: list[str]) -> list[Column]:
    """The columns that a file has; raises UserError for a header that is not as the page says."""
    known = {column.name: column for column in file.table.columns}
    for name in header:
        if header.count(name) > 1:
            raise file.unread(f"column '{name}' stands twice; keep one of the two", 1)
        if name not in known:
            raise file.unread(
                f"no column of {file.table.name} is '{name}'{did_you_mean(name, known)}", 1
            )
    missing = [name for name, column in known.items() if column.needed and name not in header]
    if missing:
        raise file.unread(f"it lacks {', '.join(missing)}; config/BALL-TABLES.md has the list", 1)
    return [known[name] for name in header]


def _of_text(file: TableFile, text: pa.Table, first: int) -> Block:
    """A block of text in the types of the contract, with the cells that have none."""
    columns = {column.name: column for column in file.table.columns}
    unread: Unread = {}
    cells = {}
    for name in text.column_names:
        column, given = columns[name], text[name].combine_chunks()
        cells[name] = read = _read(given, column).cast(file.table.arrow(column))
        wrong = np.flatnonzero(pc.and_(given.is_valid(), read.is_null()))
        if len(wrong):
            unread[name] = [(int(row), given[int(row)].as_py()) for row in wrong]
    return Block(first, pa.table(cells), unread)


def _read(text: pa.Array, column: Column) -> pa.Array:
    """Text as what the column holds; null where it is blank or is none."""
    if column.holds == "text":
        return text
    shaped = pc.match_substring_regex(text, SHAPES[column.holds])
    trimmed = pc.utf8_lower(pc.utf8_trim_whitespace(text))
    fitting = pc.if_else(shaped, trimmed, pa.scalar(None, pa.string()))
    if column.holds == "day":
        found = pc.strptime(fitting, "%Y-%m-%d", "s", error_is_null=True).cast(pa.date32())
        return pc.if_else(pc.starts_with(fitting, "0000"), pa.scalar(None, pa.date32()), found)
    whole = pc.replace_substring_regex(fitting, r"\.0*$", "")
    if column.holds == "count":
        return whole.cast(pa.int32())
    return _flag(whole)


def _flag(text: pa.Array) -> pa.Array:
    yes = pc.is_in(text, value_set=pa.array(["1", "true"]))
    return pc.if_else(text.is_valid(), yes, pa.scalar(None, pa.bool_()))
