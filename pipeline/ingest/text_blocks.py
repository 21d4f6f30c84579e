"""Rows of text from many files as columns: each column its distinct texts and a code a row."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO, NamedTuple

import numpy as np
import pyarrow as pa

from pipeline.errors import Problem, UserError
from pipeline.ingest.members import file_of, read_members

Rows = np.ndarray  # places of rows, or a flag for each


class Text(NamedTuple):
    """A column of text; what is asked of a text is asked once of each distinct one."""

    codes: np.ndarray  # int32, one a row
    values: list[str]

    def mapped(self, make: Callable[[str], Any], kind: Any) -> np.ndarray:
        """What `make` says of each row's text, as an array of numpy's type `kind`."""
        made = np.fromiter(map(make, self.values), kind, len(self.values))
        rows: np.ndarray = made[self.codes]
        return rows

    def having(self, test: Callable[[str], bool]) -> np.ndarray:
        """Flags of the rows whose text passes."""
        return self.mapped(test, bool)

    def turned(self, make: Callable[[str], str]) -> Text:
        """Every text turned, each distinct one once."""
        made = from_list([make(text) for text in self.values])
        return Text(made.codes[self.codes], made.values)

    def trimmed(self) -> Text:
        """Without spaces around the texts."""
        return self if all(text == text.strip() for text in self.values) else self.turned(str.strip)

    def text(self, row: int) -> str:
        return self.values[int(self.codes[row])]

    def take(self, rows: Rows) -> Text:
        return Text(self.codes[rows], self.values)

    def compact(self) -> Text:
        """Without the texts that no row has."""
        used = np.zeros(len(self.values), bool)
        used[self.codes] = True
        codes = (np.cumsum(used, dtype=np.int32) - 1)[self.codes]
        return Text(codes, [self.values[code] for code in np.flatnonzero(used).tolist()])

    def coded(self) -> pa.DictionaryArray:
        """The same for Arrow."""
        return pa.DictionaryArray.from_arrays(self.codes, pa.array(self.values, pa.string()))


class File(NamedTuple):
    """A file of a source: the source's path, and its name in it (of a single file its own).

    `own` is the source's path where its rows are read from a copy of them.
    """

    path: Path
    name: str
    own: Path | None = None

    @property
    def label(self) -> str:
        """As it is named to people."""
        if self.own and self.alone:
            return str(self.own)
        return file_of(self.own or self.path, self.name)

    @property
    def alone(self) -> bool:
        """Whether it is the source itself, not a member of a folder or an archive."""
        return self.path.name == self.name and not self.path.is_dir()

    def opened(self) -> BinaryIO:
        """Its bytes from the beginning. Raises UserError where they can't be read."""
        try:
            if self.alone:
                return self.path.open("rb")
        except OSError as error:
            raise UserError(Problem(self.label, f"can't be read: {error.strerror}")) from None
        ((_, data),) = read_members(self.path, [self.name])
        if isinstance(data, str):
            raise UserError(Problem(self.label, data))
        return io.BytesIO(data)


@dataclass
class Block:
    """Some rows: their columns under our names, the file of each, and its place in the file.

    `place` counts from 0 the rows after the header that are no empty lines; `line_of` in
    `row_lines` gives its line.
    """

    columns: dict[str, Text]
    files: list[File]
    file: np.ndarray  # int32, a place in `files` a row
    place: np.ndarray  # int64

    def __len__(self) -> int:
        return len(self.file)

    def take(self, rows: Rows) -> Block:
        columns = {name: column.take(rows) for name, column in self.columns.items()}
        return Block(columns, self.files, self.file[rows], self.place[rows])

    def compact(self) -> Block:
        columns = {name: column.compact() for name, column in self.columns.items()}
        return Block(columns, self.files, self.file, self.place)

    def cells(self, row: int) -> dict[str, str]:
        return {name: column.text(row) for name, column in self.columns.items()}


def constant(value: str, length: int) -> Text:
    """A column that says the same in every row."""
    return Text(np.zeros(length, np.int32), [value])


def from_arrow(column: pa.ChunkedArray | pa.Array) -> Text:
    """A column of Arrow's; a null is a blank."""
    if isinstance(column, pa.ChunkedArray):
        column = column.unify_dictionaries().combine_chunks()
    if isinstance(column, pa.ChunkedArray):  # it had no chunk at all
        column = pa.array([], column.type)
    if not isinstance(column.type, pa.DictionaryType):
        column = column.dictionary_encode()
    values = column.dictionary.to_pylist()
    codes = column.indices
    if codes.null_count or None in values:
        values = ["" if value is None else value for value in values]
        codes = codes.fill_null(len(values))
        values.append("")
    return _distinct(Text(codes.to_numpy(zero_copy_only=False).astype(np.int32), values))


def from_list(texts: list[str]) -> Text:
    """A column of some texts."""
    codes: dict[str, int] = {}
    made = [codes.setdefault(text, len(codes)) for text in texts]
    return Text(np.array(made, np.int32), list(codes))


def _distinct(column: Text) -> Text:
    """No text stands twice among the distinct ones."""
    if len(set(column.values)) == len(column.values):
        return column
    return column.turned(str)


def joined(blocks: Iterable[Block]) -> Block:
    """Blocks of one source one after the other; a column that one lacks is blank there."""
    parts = list(blocks)
    if len(parts) == 1:
        return parts[0]
    names = dict.fromkeys(name for part in parts for name in part.columns)
    columns = {
        name: _joined([part.columns.get(name) or constant("", len(part)) for part in parts])
        for name in names
    }
    file = np.concatenate([part.file for part in parts])
    return Block(columns, parts[0].files, file, np.concatenate([part.place for part in parts]))


def _joined(columns: list[Text]) -> Text:
    values: dict[str, int] = {}
    codes = []
    for column in columns:
        made = [values.setdefault(value, len(values)) for value in column.values]
        codes.append(np.array(made, np.int32)[column.codes])
    return Text(np.concatenate(codes), list(values))
