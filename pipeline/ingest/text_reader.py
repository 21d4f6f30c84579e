"""Any number of CSV and Parquet files as blocks of text columns, in bounded memory.

What can't be read is told as a problem of its file, which is then left out whole: a file is looked
through before the first of its rows is given.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pyarrow as pa

from pipeline.errors import Problem, UserError
from pipeline.ingest.csv_by_line import read_by_line
from pipeline.ingest.large_csv import Large, large_csv
from pipeline.ingest.members import is_parquet, read_members
from pipeline.ingest.text_blocks import Block, File, Text, constant, from_list, joined
from pipeline.ingest.text_csv import (
    Batch,
    names_in,
    plain_header,
    plain_text,
    read_batch,
)
from pipeline.ingest.text_parquet import stream_parquet

BATCH = 24 << 20  # bytes of small files that are read at once, some 200,000 rows
Picked = Callable[[list[str], str], dict[str, int]]  # of a header and the file's label


@dataclass
class Reader:
    """Reads a source's files; `files` are all that were met, `problems` those that were not read.

    `picked` says which columns of a header are ours, by their places, or raises UserError.
    """

    path: Path
    picked: Picked
    own: Path | None = None  # the source's path where `path` has a copy of its rows
    constants: dict[str, str] = field(default_factory=dict)  # of columns that a file lacks
    files: list[File] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    unread: set[str] = field(default_factory=set)  # names of files
    _large: dict[str, Large | None] = field(default_factory=dict)

    def blocks(self, names: list[str], only: tuple[str, ...] = ()) -> Iterator[Block]:
        """The rows of some files in blocks; of those of one small file all stand in one.

        Small files may come in another order than they are named. `only` some of our columns. A row
        that is blank in every cell is none. Spaces around a cell are no part of it: they would make
        another match or player.
        """
        for block in self._blocks(names, only):
            self._filled |= set(np.flatnonzero(np.bincount(block.file)).tolist())
            block.columns = {name: column.trimmed() for name, column in block.columns.items()}
            for name, value in self.constants.items():
                if name not in block.columns and (not only or name in only):
                    block.columns[name] = constant(value, len(block))
            yield block

    def _blocks(self, names: list[str], only: tuple[str, ...]) -> Iterator[Block]:
        """The same of the columns that each file has; a block's are all of one header."""
        waiting: dict[bytes, _Waiting] = {}
        for name in names:
            if name in self.unread:
                continue
            place = self._place(self._file(name))
            if is_parquet(name) or self._is_large(name):
                yield from self._streamed(place, only)
                continue
            data = self._bytes(name)
            if data is None:
                continue
            plain = plain_header(data) if plain_text(data) else None
            if plain is None:
                yield from self._by_line(place, only)
                continue
            batch = waiting.setdefault(plain.header, _Waiting())
            batch.add(place, memoryview(data)[plain.body :])
            if batch.size >= BATCH:
                yield from self._batch(plain.header, waiting.pop(plain.header), only)
        for header, batch in waiting.items():
            yield from self._batch(header, batch, only)

    def without_rows(self) -> list[str]:
        """Files that were read, and have a header only."""
        found = [file for at, file in enumerate(self.files) if at not in self._filled]
        return [file.label for file in found if file.name not in self.unread]

    def _place(self, file: File) -> int:
        """Its place in `files`, put there at first sight."""
        known = self._places.setdefault(file.name, len(self.files))
        if known == len(self.files):
            self.files.append(file)
        return known

    def _file(self, name: str) -> File:
        return File(self.path, name, self.own)

    def __post_init__(self) -> None:
        self._places: dict[str, int] = {}
        self._filled: set[int] = set()  # places of files with rows
        self.headers: dict[int, tuple[str, ...]] = {}  # of each file that was met

    def _is_large(self, name: str) -> bool:
        file = self._file(name)
        return file.alone and self.path.stat().st_size > BATCH

    def _bytes(self, name: str) -> bytes | None:
        ((_, data),) = read_members(self.path, [name])
        if isinstance(data, str):
            self._refuse(name, [Problem(self._file(name).label, data)])
            return None
        return data

    def _refuse(self, name: str, problems: list[Problem]) -> None:
        self.unread.add(name)
        self.problems += problems

    def _chosen(self, header: list[str], place: int, only: tuple[str, ...]) -> dict[str, int]:
        self.headers[place] = tuple(header)
        places = self.picked(header, self.files[place].label)
        return {name: places[name] for name in only if name in places} if only else places

    def _batch(self, header: bytes, batch: _Waiting, only: tuple[str, ...]) -> Iterator[Block]:
        """Files of one header at once, or where that can't be each by itself."""
        try:
            names = names_in(header)
            picked = self._chosen(names, batch.places[0], only)
            block = read_batch(Batch(names, batch.places, batch.bodies), picked, self.files)
            self.headers |= dict.fromkeys(batch.places, tuple(names))
        except UserError:
            for place in batch.places:  # each is told of its own header
                yield from self._by_line(place, only)
            return
        except pa.ArrowInvalid:
            if len(batch.places) == 1:
                yield from self._by_line(batch.places[0], only)
                return
            half = len(batch.places) // 2
            for part in (slice(None, half), slice(half, None)):
                fewer = _Waiting(batch.places[part], batch.bodies[part])
                yield from self._batch(header, fewer, only)
            return
        yield from self._without_blanks(block, only)

    def _without_blanks(self, block: Block, only: tuple[str, ...]) -> Iterator[Block]:
        """A row of nothing but blanks is none; the slow reader sees all of its cells."""
        first = next(iter(block.columns.values()))
        blank = first.having(lambda text: not text)
        if not blank.any():
            yield block
            return
        odd = np.unique(block.file[blank])
        yield block.take(~np.isin(block.file, odd))
        for place in odd.tolist():
            yield from self._by_line(place, only)

    def _by_line(self, place: int, only: tuple[str, ...]) -> Iterator[Block]:
        file = self.files[place]

        def chosen(header: list[str]) -> dict[str, int]:
            return self._chosen(header, place, only)

        try:
            pieces = (
                self._block(place, columns, np.array(rows.places, np.int64))
                for rows in read_by_line(file.opened, file.label, chosen)
                for columns in [{name: from_list(texts) for name, texts in rows.columns.items()}]
            )
            if self._is_large(file.name):
                yield from pieces
            elif whole := list(pieces):
                yield joined(whole)
        except UserError as error:
            self._refuse(file.name, error.problems)

    def _block(self, place: int, columns: dict[str, Text], places: np.ndarray) -> Block:
        return Block(columns, self.files, np.full(len(places), place, np.int32), places)

    def _streamed(self, place: int, only: tuple[str, ...]) -> Iterator[Block]:
        """One Parquet or large CSV file in pieces."""
        file, begun = self.files[place], 0
        if is_parquet(file.name):
            pieces = stream_parquet(file, lambda header: self._chosen(header, place, only))
        else:
            large = self._looked_through(place)
            if large is None:
                yield from self._by_line(place, only)
                return
            pieces = large.pieces(file, self._chosen(large.header, place, only))
        try:
            for columns in pieces:
                length = len(next(iter(columns.values())).codes)
                yield self._block(place, columns, np.arange(begun, begun + length))
                begun += length
        except UserError as error:
            self._refuse(file.name, error.problems)

    def _looked_through(self, place: int) -> Large | None:
        """How a large file is read quickly, or None for the slow reader; found out once."""
        file = self.files[place]
        if file.name not in self._large:
            large = large_csv(file)
            try:
                if large and not large.is_plain(file, self._chosen(large.header, place, ())):
                    large = None
            except UserError:
                large = None
            self._large[file.name] = large
        return self._large[file.name]


@dataclass
class _Waiting:
    """Small files of one header, to be read at once."""

    places: list[int] = field(default_factory=list)
    bodies: list[memoryview | bytes] = field(default_factory=list)
    size: int = 0

    def add(self, place: int, body: memoryview) -> None:
        self.places.append(place)
        self.bodies.append(body)
        self.size += len(body)
