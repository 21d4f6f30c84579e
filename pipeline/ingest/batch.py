"""A chunk's tables as a batch on the disk: the one that is there, where it is of the same files.

The processes that read write too, so that no table goes from one to another.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import NamedTuple

import pyarrow as pa
import pyarrow.parquet as pq

from pipeline.batches import NOTE, TABLES, file_of, sealed, whole
from pipeline.contracts.batch import Batch
from pipeline.contracts.files import as_json
from pipeline.errors import named
from pipeline.hashes import file_hash, value_hash
from pipeline.ingest.members import marked, marks_told, read_members, tells_marks
from pipeline.ingest.order import in_order
from pipeline.ingest.read import Found, no_collection, read_chunk
from pipeline.ingest.source_report import figures_of
from pipeline.scratch import put_in_place, scratch

NAME = 24  # characters of a hash that a batch is called by


class Made(NamedTuple):
    """A batch: its folder's name, the sha256 of its note, and what that says."""

    name: str
    sha: str
    batch: Batch


class Reader(NamedTuple):
    """All but the files themselves that decides what a batch holds; and the folder of batches.

    `fresh`: there are no batches yet, so that none is looked for.
    """

    path: Path
    source: str
    code: str
    folder: Path
    fresh: bool


def batch_of(reader: Reader, names: list[str]) -> Made:
    """The batch of some match files, read only where it is not there, or not whole."""
    if there := batch_told(reader, names) or batch_looked_up(reader, names):
        return there
    marks, crc = list[str](), tells_marks(reader.path)
    with no_collection(), scratch(reader.folder / f"chunk-{os.getpid()}") as made:
        members = marked(read_members(reader.path, names), marks, crc)
        batch = _write(made, read_chunk(reader.path, reader.source, members))
        target = _folder(reader, names, marks)
        put_in_place(made, target)
    return _made(target, batch)


def batch_told(reader: Reader, names: list[str]) -> Made | None:
    """The batch, if it is there and the source itself tells which it is."""
    marks = None if reader.fresh else marks_told(reader.path, names)
    return _there(_folder(reader, names, marks)) if marks else None


def batch_looked_up(reader: Reader, names: list[str]) -> Made | None:
    """The batch, if it is there; files are read for it, but not decoded."""
    if reader.fresh or marks_told(reader.path, names):
        return None
    marks = list[str]()
    for _ in marked(read_members(reader.path, names), marks):
        pass
    return _there(_folder(reader, names, marks))


def _folder(reader: Reader, names: list[str], marks: list[str]) -> Path:
    files = [*zip(names, marks, strict=True)]
    return reader.folder / value_hash([reader.code, reader.source, reader.path, files])[:NAME]


def _there(folder: Path) -> Made | None:
    batch = whole(folder)
    return _made(folder, batch) if batch and not batch.unread else None


def batch_of_rows(folder: Path, found: Found) -> Made:
    """A batch of rows, which were read already: called by what is in it."""
    found.tables.deliveries = in_order(found.tables.deliveries)
    with scratch(folder / "rows") as made:
        batch = _write(made, found)
        name = batch.seal[:NAME]
        put_in_place(made, folder / name)
    return _made(folder / name, batch)


def _made(folder: Path, batch: Batch) -> Made:
    return Made(folder.name, file_hash(folder / NOTE), batch)


def _write(folder: Path, found: Found) -> Batch:
    shas = {}
    for table in TABLES:
        path = file_of(folder, table)
        with named(path):
            _write_table(path, getattr(found.tables, table))
        shas[table] = file_hash(path)
    batch = sealed(
        Batch(
            tables=shas,
            figures=figures_of(found.tables),
            problems=found.problems,
            strays=dict(sorted(found.strays.items())),
            unread=found.unread,
            odd=found.tables.odd,
        )
    )
    (folder / NOTE).write_text(as_json(batch), "utf-8")
    return batch


def _write_table(path: Path, table: pa.Table) -> None:
    """These tables are read by the next stage alone: written for speed, not for size.

    Where a column has no nulls it is said to have none, so that none are looked for.
    """
    coded = [field.name for field in table.schema if isinstance(field.type, pa.DictionaryType)]
    fields = [field.with_nullable(table[field.name].null_count > 0) for field in table.schema]
    table = pa.Table.from_arrays(table.columns, schema=pa.schema(fields))
    pq.write_table(table, path, compression="lz4", use_dictionary=coded, write_statistics=False)
