"""A source's tables as they lie on the disk: batches of matches, a folder each, and their list.

What is in a batch never changes: other contents have another name. So a batch that is there and
whole need not be read from the match files again, and the list alone says what the tables are.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import msgspec
from msgspec import structs

from pipeline.contracts.batch import Batch, Batches
from pipeline.contracts.files import read_json
from pipeline.errors import UserError
from pipeline.hashes import file_hash, value_hash
from pipeline.tables import DELIVERIES, DISMISSALS, INNINGS, MATCHES, PEOPLE

FOLDER, LIST, NOTE = "batches", "batches.json", "batch.json"
TABLES = {
    "deliveries": DELIVERIES,
    "dismissals": DISMISSALS,
    "matches": MATCHES,
    "innings": INNINGS,
    "people": PEOPLE,
}


def listed(source: Path) -> list[Path]:
    """The folders of a source's batches, in order.

    Raises UserError for a list that is not there or can't be read.
    """
    return [source / FOLDER / name for name in read_json(source / LIST, Batches).batches]


def file_of(folder: Path, table: str) -> Path:
    """The file of a table in a batch, or of a source's people in its own folder."""
    return folder / f"{table}.parquet"


def files_of(source: Path, table: str) -> list[Path]:
    """The files that one of a source's tables is, in order; its people are gathered in one.

    Raises UserError for a list that is not there or can't be read.
    """
    folders = [source] if table == "people" else listed(source)
    return [file_of(folder, table) for folder in folders]


def sealed(batch: Batch) -> Batch:
    """The same with the seal of its contents."""
    plain = msgspec.to_builtins(structs.replace(batch, seal=""))
    return structs.replace(batch, seal=value_hash(plain))


def whole(folder: Path) -> Batch | None:
    """What is noted of a batch, if it and its tables are as they were written; else nothing."""
    with suppress(UserError):
        batch = read_json(folder / NOTE, Batch)
        if sealed(batch) == batch and _changed(folder, batch) is None:
            return batch
    return None


def at_fault(path: Path) -> Path | None:
    """The first file beneath a list of batches that is not as it was written, if one is not."""
    try:
        batches = read_json(path, Batches).batches
        for name, sha in batches.items():
            folder = path.parent / FOLDER / name
            if not _is(folder / NOTE, sha):
                return folder / NOTE
            if changed := _changed(folder, read_json(folder / NOTE, Batch)):
                return changed
    except UserError:
        return path
    return None


def _changed(folder: Path, batch: Batch) -> Path | None:
    if set(batch.tables) != set(TABLES):
        return folder / NOTE
    files = {file_of(folder, table): sha for table, sha in batch.tables.items()}
    return next((file for file, sha in files.items() if not _is(file, sha)), None)


def _is(path: Path, sha: str) -> bool:
    return path.is_file() and file_hash(path) == sha
