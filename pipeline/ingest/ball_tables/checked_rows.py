"""Rows of one table, checked against its contract column by column, with the place of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc

from pipeline.errors import near_miss
from pipeline.ingest.ball_tables.contract import Column, Table
from pipeline.ingest.ball_tables.table_files import TableFile
from pipeline.ingest.ball_tables.typed_blocks import Block, read_blocks
from pipeline.ingest.mistakes import Mistakes, More, short

FILE, ROW = "file", "row"  # where a row stands: the place of its file in the list, and its row
SAID = "said"  # a cell of the row has been named: what follows from it is not told as well
BESIDE = (FILE, ROW, SAID)


@dataclass
class Reading:
    """One table's files as they are read, and what is wrong with them."""

    table: Table
    files: list[TableFile]
    mistakes: Mistakes
    lost: bool = False  # a ball or a wicket is of a match that nobody can tell
    filled: set[str] = field(default_factory=set)  # names of files with rows

    def blocks(self) -> Iterator[pa.Table]:
        """Every row: the table's columns, and BESIDE; blanks hold what a blank means."""
        for number, file in enumerate(self.files):
            for block in read_blocks(file):
                if block.table.num_rows:
                    self.filled.add(file.name)
                yield self._checked(number, file, block)

    def whole(self) -> pa.Table:
        """All rows at once."""
        blocks = list(self.blocks())
        if not blocks:
            return self.none()
        whole = pa.concat_tables(blocks).unify_dictionaries().combine_chunks()
        return whole if self.table.large else self._but_repeated(whole)

    def tell(
        self, rows: pa.Table, wrong: Any, kind: str, message: str, more: More | None = None
    ) -> None:
        """Name the rows where `wrong` holds (a mask); braces stand for cells of the first.

        What `more` says of these is put behind it. A row of which a cell has been named is passed
        over.
        """
        if SAID in rows.column_names:
            wrong = np.asarray(wrong) & ~rows[SAID].to_numpy()
        places = np.flatnonzero(wrong)
        if not len(places):
            return
        numbers = rows[FILE].to_numpy()[places]
        for number in np.unique(numbers):
            of_file = places[numbers == number]
            first = int(of_file[0])
            row, matches = rows[ROW][first].as_py(), self._matches(rows, of_file)
            file = self.files[int(number)]
            if kept := self.mistakes.note(file, kind, row, len(of_file), matches):
                cells = {name: short(str(rows[name][first].as_py())) for name in self.table.names}
                kept.told = message.format_map(cells) + (more(cells) if more else "")

    def _matches(self, rows: pa.Table, places: np.ndarray) -> list[str]:
        if "match_id" not in rows.column_names:
            return []
        found = rows["match_id"].take(pa.array(places)).unique().to_pylist()
        return [match for match in found if match is not None]

    def without_rows(self) -> list[str]:
        """Files that were read, and have a header only."""
        return [file.label for file in self.files if file.name not in self.filled]

    def none(self) -> pa.Table:
        """The table without a row."""
        fields = [(column.name, self.table.arrow(column)) for column in self.table.columns]
        return pa.schema(
            [*fields, (FILE, pa.int32()), (ROW, pa.int64()), (SAID, pa.bool_())]
        ).empty_table()

    def _checked(self, number: int, file: TableFile, block: Block) -> pa.Table:
        given, count = block.table, block.table.num_rows
        places = {
            FILE: pa.array(np.full(count, number, np.int32)),
            ROW: pa.array(np.arange(block.first, block.first + count)),
        }
        cells = {}
        for column in self.table.columns:
            there = column.name in given.column_names
            absent = pa.nulls(count, self.table.arrow(column))
            found = given[column.name] if there else absent
            spaces = column.holds == "text" and not self.table.large
            cells[column.name] = _spaces_blank(found) if spaces else found
        rows = pa.table({**cells, **places})
        said = np.zeros(count, bool)
        for column in self.table.columns:
            unread = block.unread.get(column.name, ())
            rows, wrong = self._column(rows, column, unread)
            said |= wrong
        return rows.append_column(SAID, pa.array(said))

    def _column(
        self, rows: pa.Table, column: Column, unread: Sequence[tuple[int, str]]
    ) -> tuple[pa.Table, np.ndarray]:
        """One column with its blanks filled, and where it has what is no such cell, named."""
        cells = rows[column.name]
        wrong = np.zeros(rows.num_rows, bool)
        is_unread = wrong.copy()
        for row, _ in unread:
            is_unread[row] = True
        if unread:
            message = f"{column.name}: '{_safe(unread[0][1])}' is none; expected {column.expected}"
            self.tell(rows, is_unread, f"{column.name} unread", message)
        if column.needed and cells.null_count:
            blank = cells.is_null().to_numpy() & ~is_unread
            self.tell(rows, blank, f"{column.name} blank", f"{column.name} is blank")
            wrong |= blank
            self.lost |= self.table.large and column.name == "match_id" and bool(blank.any())
        if column.words or column.form:
            wrong |= self._no_words(rows, column)
        if column.holds == "count" and len(cells):
            ends = pc.min_max(cells).as_py()
            if ends["min"] is not None and (
                ends["min"] < column.least or ends["max"] > column.most
            ):
                wrong |= self._out_of_range(rows, column)
        filled = _filled(cells, column)
        at = rows.column_names.index(column.name)
        return rows.set_column(at, column.name, filled), wrong | is_unread

    def _no_words(self, rows: pa.Table, column: Column) -> np.ndarray:
        """Text that is none of its words, or not of its form."""
        cells = rows[column.name]
        if column.words:
            fits = pc.is_in(cells, value_set=pa.array(column.words))
        else:
            fits = pc.match_substring_regex(cells, column.form).fill_null(True)
        other = pc.and_(cells.is_valid(), pc.invert(fits)).to_numpy()
        blank = "" if column.needed else ", or leave it blank"
        message = f"{column.name}: '{{{column.name}}}'; expected {column.expected}{blank}"
        near = partial(like, column.name, column.words)
        self.tell(rows, other, f"{column.name} word", message, near)
        return np.asarray(other)

    def _out_of_range(self, rows: pa.Table, column: Column) -> np.ndarray:
        cells = rows[column.name].fill_null(column.least).to_numpy()
        beyond = (cells < column.least) | (cells > column.most)
        message = f"{column.name}: {{{column.name}}}; expected a {column.expected}"
        self.tell(rows, beyond, f"{column.name} beyond", message)
        return np.asarray(beyond)

    def _but_repeated(self, rows: pa.Table) -> pa.Table:
        """Rows that no other one repeats; the second with the same key is named."""
        keys = list(zip(*(rows[name].to_pylist() for name in self.table.key), strict=True))
        first: dict[Any, int] = {}
        again = np.array([first.setdefault(key, at) != at for at, key in enumerate(keys)], bool)
        named = ", ".join(f"{name} '{{{name}}}'" for name in self.table.key)
        self.tell(rows, again, "repeated", f"a second row of {named}; keep one of them")
        return rows.filter(pa.array(~again)) if again.any() else rows


def _spaces_blank(cells: pa.ChunkedArray) -> pa.ChunkedArray:
    """Cells in which nothing but spaces stands hold nothing."""
    return pc.if_else(pc.equal(pc.utf8_trim_whitespace(cells), ""), pa.scalar(None), cells)


def like(name: str, words: Iterable[str], cells: dict[str, str]) -> str:
    """' (did you mean X?)' of a cell that is like one of the words, else nothing."""
    return near_miss(cells[name].strip().lower(), words)


def _safe(text: str) -> str:
    """A cell that a message repeats, whose own braces stand for nothing."""
    return short(text).replace("{", "{{").replace("}", "}}")


def _filled(cells: pa.ChunkedArray, column: Column) -> pa.ChunkedArray:
    """Cells with what a blank stands for; a needed one that is blank has been named by now."""
    if not cells.null_count:
        return cells
    blank: Any = column.default
    if column.needed:
        blank = {"text": "", "count": column.least, "day": None}.get(column.holds)
    if blank is None:
        return cells
    if pa.types.is_dictionary(cells.type):
        plain = cells.cast(pa.string()).fill_null(blank)
        return plain.dictionary_encode()
    return cells.fill_null(blank)
