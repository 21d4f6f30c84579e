"""Rows as blocks of whole matches, whatever order the files and their rows stand in.

Files that are named after the one match in them are given as they are read. The others are looked
through first: where a match's rows stand together they are given as they come, and those of the
rest are put aside until the end (on the disk where they are many).
"""

from __future__ import annotations

import tempfile
import zlib
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa

from pipeline.errors import Problem
from pipeline.ingest.limits import MOST_ROWS_OF_A_MATCH
from pipeline.ingest.members import sizes_of
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.text_blocks import Block, Text, from_arrow, joined
from pipeline.ingest.text_reader import BATCH, Reader

KEY = "match_id"
OF_ONE_MATCH = 2 << 20  # bytes; a file that is larger holds several matches
LZ4 = pa.ipc.IpcWriteOptions(compression="lz4")
IN_MEMORY = 200_000  # rows put aside that need no disk


def match_blocks(reader: Reader, names: list[str], mistakes: Mistakes) -> Iterator[Block]:
    """The rows of some files, those of a match all in one block and in the order of the file."""
    sizes = sizes_of(reader.path, names)
    stems = Counter(Path(name).stem for name in names)
    small = [
        name
        for name in names
        if sizes[name] <= OF_ONE_MATCH and stems[Path(name).stem] == 1 and _is_csv(name)
    ]
    given: set[str] = set()  # names of files
    taken: set[str] = set()  # matches
    for block in reader.blocks(small):
        block = _named_after_their_match(block)
        if not len(block):
            break  # this archive names its files otherwise
        given |= {reader.files[place].name for place in np.unique(block.file)}
        taken |= _matches_in(block)
        yield block
    others = [name for name in names if name not in given]
    for block in _others(reader, others, sum(sizes[name] for name in others)):
        known = block.columns[KEY].having(taken.__contains__)
        twice = "match {match_id} has a file of its own too; keep one of the two"
        if known.any():
            wrong = Mistakes(found=mistakes.found)  # the match itself is in order
            wrong.add(block, known, twice)
            block = block.take(~known)
        if len(block):
            yield block


def _is_csv(name: str) -> bool:
    return not name.endswith(".parquet")


def _matches_in(block: Block) -> set[str]:
    column = block.columns[KEY]
    return {column.values[code] for code in np.unique(column.codes)}


def _named_after_their_match(block: Block) -> Block:
    """The rows of files whose every row is of the match that they are named after."""
    column = block.columns[KEY]
    codes = {text: code for code, text in enumerate(column.values)}
    wanted = np.array([codes.get(Path(file.name).stem, -1) for file in block.files])
    other = np.unique(block.file[column.codes != wanted[block.file]])
    return block.take(~np.isin(block.file, other)) if len(other) else block


def _others(reader: Reader, names: list[str], size: int) -> Iterator[Block]:
    """The same of files that hold any matches."""
    if size <= BATCH and all(map(_is_csv, names)):
        if blocks := list(reader.blocks(names)):
            yield _grouped(joined(blocks))
        return
    runs, rows = _counted(reader, names)
    too_long = {name for name, count in rows.items() if count > MOST_ROWS_OF_A_MATCH}
    for name in sorted(too_long):
        message = f"match {name} has {rows[name]:,} rows; the most is {MOST_ROWS_OF_A_MATCH:,}"
        reader.problems.append(
            Problem(str(reader.path), f"{message}: is match_id the right column?")
        )
    apart = {name for name, count in runs.items() if count > 1} - too_long
    with _Aside(sum(rows[name] for name in apart)) as aside:
        yield from _together(reader.blocks(names), apart, too_long, aside)
        yield from aside.blocks(reader)


def _counted(reader: Reader, names: list[str]) -> tuple[Counter[str], Counter[str]]:
    """How many runs of rows each match has, and how many rows."""
    runs, rows = Counter[str](), Counter[str]()
    last: tuple[str, int] | None = None
    for block in reader.blocks(names, only=(KEY,)):
        column = block.columns[KEY]
        starts = _starts(column.codes, block.file)
        counts = np.diff(starts, append=len(block))
        for start, count in zip(starts.tolist(), counts.tolist(), strict=True):
            at = (column.text(start), int(block.file[start]))
            runs[at[0]] += at != last
            rows[at[0]] += count
            last = at
    return runs, rows


def _starts(*columns: np.ndarray) -> np.ndarray:
    """The rows where one of the columns is not as in the row before."""
    changed = np.ones(len(columns[0]), bool)
    changed[1:] = False
    for column in columns:
        changed[1:] |= column[1:] != column[:-1]
    return np.flatnonzero(changed)


def _together(
    blocks: Iterator[Block], apart: set[str], left_out: set[str], aside: _Aside
) -> Iterator[Block]:
    """Matches whose rows stand together, each once its last row is there."""
    waiting: Block | None = None
    for block in blocks:
        if left_out:
            block = block.take(~block.columns[KEY].having(left_out.__contains__))
        if apart:
            of_those = block.columns[KEY].having(apart.__contains__)
            aside.add(block.take(of_those))
            block = block.take(~of_those)
        whole = joined([waiting, block]) if waiting else block
        if not len(whole):
            continue
        last = int(_starts(whole.columns[KEY].codes)[-1])
        if last:
            yield whole.take(np.arange(last))
        waiting = whole.take(np.arange(last, len(whole))).compact()
    if waiting:
        yield waiting


def _grouped(block: Block) -> Block:
    """The rows of each match together, in their order."""
    codes = block.columns[KEY].codes
    if (codes[1:] >= codes[:-1]).all():
        return block
    return block.take(np.argsort(codes, kind="stable"))


class _Aside:
    """Rows of matches that do not stand together: in memory, or on the disk in parts that fit."""

    def __init__(self, rows: int):
        self._parts = 1 + rows // IN_MEMORY
        self._kept: list[Block] = []
        self._stack = ExitStack()
        self._writers: list[Any] = []
        self._paths: list[Path] = []

    def __enter__(self) -> _Aside:
        return self

    def __exit__(self, *error: object) -> None:
        self._stack.close()

    def add(self, block: Block) -> None:
        if not len(block):
            return
        if self._parts == 1:
            self._kept.append(block)
            return
        column = block.columns[KEY]
        part = column.mapped(lambda text: zlib.crc32(text.encode()) % self._parts, np.int32)
        for number in np.unique(part).tolist():
            self._write(number, block.take(part == number))

    def _write(self, part: int, block: Block) -> None:
        table = pa.table(
            {name: text.coded().dictionary_decode() for name, text in block.columns.items()}
            | {" file": block.file, " place": block.place}
        )
        if not self._writers:
            folder = Path(self._stack.enter_context(tempfile.TemporaryDirectory()))
            self._paths = [folder / f"{number}.arrow" for number in range(self._parts)]
            self._writers = [
                self._stack.enter_context(pa.ipc.new_stream(str(path), table.schema, options=LZ4))
                for path in self._paths
            ]
        self._writers[part].write_table(table)

    def blocks(self, reader: Reader) -> Iterator[Block]:
        """All that was put aside, whole matches at once."""
        if self._kept:
            yield _grouped(joined(self._kept))
        for writer in self._writers:
            writer.close()
        for path in self._paths:
            table = pa.ipc.open_stream(str(path)).read_all()
            if table.num_rows:
                columns: dict[str, Text] = {
                    name: from_arrow(table[name])
                    for name in table.column_names
                    if name not in (" file", " place")
                }
                file, place = (table[name].to_numpy() for name in (" file", " place"))
                yield _grouped(Block(columns, reader.files, file, place))
