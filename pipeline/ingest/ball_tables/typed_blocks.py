"""Cells of a file into the types of their columns, a block at a time.

Every cell is read as text, each distinct one of a block once, and what a text says is asked of
`number_cells`, as it is of the rows of other layouts: so that no library's own idea of a number
counts, and each mistake has its row.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np
import pyarrow as pa
import pyarrow.csv as pacsv

from pipeline.date_forms import day_of
from pipeline.errors import did_you_mean, words_of
from pipeline.ingest.ball_tables.contract import Column
from pipeline.ingest.ball_tables.table_files import TORN, TableFile
from pipeline.ingest.csv_by_line import check_lengths, check_text, header_of
from pipeline.ingest.number_cells import flag_of, number_of
from pipeline.ingest.other_forms import HEAD, not_apart
from pipeline.ingest.text_blocks import Text, from_arrow
from pipeline.ingest.text_parquet import stream_parquet

BLOCK = 4 * 1024 * 1024  # bytes of a CSV
ROWS = 65_536  # of a Parquet table
CODED = pa.dictionary(pa.int32(), pa.string())
READ: dict[str, Any] = {"count": number_of, "flag": flag_of, "day": lambda t: day_of(t.strip())}
Unread = dict[str, list[tuple[int, str]]]
Pieces = Iterator[dict[str, Text]]


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
    pieces = _csv_pieces(file) if file.form == "csv" else _parquet_pieces(file)
    first = 0
    try:
        for cells in pieces:
            block = _typed(file, cells, first)
            yield block
            first += block.table.num_rows
    except pa.ArrowException as error:
        raise file.unread(f"not a readable {file.form} table: {words_of(error)}") from None
    except TORN as error:
        raise file.unread(f"damaged ({error}); fetch it again") from None


def _csv_pieces(file: TableFile) -> Pieces:
    header = _header(file)
    names = [column.name for column in _given(file, header)]
    convert = pacsv.ConvertOptions(
        column_types=dict.fromkeys(names, CODED),
        include_columns=names,
        null_values=[],
        strings_can_be_null=False,
    )
    parse = pacsv.ParseOptions(newlines_in_values=True)
    how = pacsv.ReadOptions(block_size=BLOCK, use_threads=False)
    with file.opened() as opened:
        try:
            for batch in pacsv.open_csv(opened, how, parse, convert):
                yield {name: from_arrow(batch[name]) for name in names}
        except pa.ArrowException:
            check_text(file.opened, file.label)
            check_lengths(file.opened, file.label, header)
            raise


def _parquet_pieces(file: TableFile) -> Pieces:
    def picked(header: list[str]) -> dict[str, int]:
        return {column.name: header.index(column.name) for column in _given(file, header)}

    return stream_parquet(file, picked, most=None, rows=ROWS)


def _header(file: TableFile) -> list[str]:
    with file.opened() as opened:
        head = opened.read(HEAD)
    try:
        if b"\0" not in head:
            return header_of(file.opened, file.label)
    except UnicodeDecodeError:
        pass
    check_text(file.opened, file.label)  # which says what else it is
    return header_of(file.opened, file.label)


def _given(file: TableFile, header: list[str]) -> list[Column]:
    """The columns that a file has; raises UserError for a header that is not as the page says."""
    known = {column.name: column for column in file.table.columns}
    if other := not_apart(header):
        raise file.unread(other, 1)
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


def _typed(file: TableFile, cells: dict[str, Text], first: int) -> Block:
    """A block of text in the types of the contract, with the cells that have none."""
    columns = {column.name: column for column in file.table.columns}
    made, unread = {}, Unread()
    for name, text in cells.items():
        column, kind = columns[name], file.table.arrow(columns[name])
        if column.holds == "text":
            made[name] = _of_text(text).cast(kind)
            continue
        read = [READ[column.holds](each) for each in text.values]
        made[name] = pa.array(read, kind).take(pa.array(text.codes))
        pairs = zip(read, text.values, strict=True)
        none = np.array([value is None and bool(each.strip()) for value, each in pairs], bool)
        if none.any():
            rows = np.flatnonzero(none[text.codes]).tolist()
            unread[name] = [(row, text.text(row)) for row in rows]
    return Block(first, pa.table(made), unread)


def _of_text(text: Text) -> pa.DictionaryArray:
    """The same for Arrow; a blank is a null."""
    blank = text.values.index("") if "" in text.values else -1
    codes = pa.array(text.codes, mask=text.codes == blank)
    return pa.DictionaryArray.from_arrays(codes, pa.array(text.values, pa.string()))
