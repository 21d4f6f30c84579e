"""Rows of matches that do not stand together: kept until all are there, on the disk where many."""

from __future__ import annotations

import tempfile
import zlib
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa

from pipeline.ingest.text_blocks import Block, Text, from_arrow, joined
from pipeline.ingest.text_reader import Reader

KEY = "match_id"
IN_MEMORY = 200_000  # rows that need no disk
Written = tuple[int, tuple[str, ...]]  # a part, and the columns of rows of one header
LZ4 = pa.ipc.IpcWriteOptions(compression="lz4")


def grouped(block: Block) -> Block:
    """The rows of each match together, in their order."""
    codes = block.columns[KEY].codes
    if (codes[1:] >= codes[:-1]).all():
        return block
    return block.take(np.argsort(codes, kind="stable"))


class Aside:
    """Rows of matches that do not stand together: in memory, or on the disk in parts that fit."""

    def __init__(self, rows: int):
        self._parts = 1 + rows // IN_MEMORY
        self._kept: list[Block] = []
        self._stack = ExitStack()
        self._writers: dict[Written, Any] = {}
        self._paths: dict[Written, Path] = {}
        self._folder: Path | None = None

    def __enter__(self) -> Aside:
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
        key = part, tuple(block.columns)
        if key not in self._writers:
            if self._folder is None:
                self._folder = Path(self._stack.enter_context(tempfile.TemporaryDirectory()))
            self._paths[key] = path = self._folder / f"{len(self._paths)}.arrow"
            opened = pa.ipc.new_stream(str(path), table.schema, options=LZ4)
            self._writers[key] = self._stack.enter_context(opened)
        self._writers[key].write_table(table)

    def blocks(self, reader: Reader) -> Iterator[Block]:
        """All that was put aside, whole matches at once."""
        if self._kept:
            yield grouped(joined(self._kept))
        for writer in self._writers.values():
            writer.close()
        for part in sorted({part for part, _ in self._paths}):
            paths = [path for (number, _), path in self._paths.items() if number == part]
            yield grouped(joined([_block(path, reader) for path in paths]))


def _block(path: Path, reader: Reader) -> Block:
    table = pa.ipc.open_stream(str(path)).read_all()
    columns: dict[str, Text] = {
        name: from_arrow(table[name])
        for name in table.column_names
        if name not in (" file", " place")
    }
    file, place = (table[name].to_numpy() for name in (" file", " place"))
    return Block(columns, reader.files, file, place)
