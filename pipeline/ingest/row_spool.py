"""What a source of layout `table` is read from: its own files, or a plain copy of their rows.

A query's rows become a Parquet table, a CSV of other letters or another delimiter one of the plain
kind with the same lines. Both are made aside, in bounded memory, and are gone when all is read.
"""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

import pyarrow.parquet as pq

from pipeline.errors import Problem, UserError, words_of
from pipeline.hashes import value_hash
from pipeline.ingest import databases
from pipeline.ingest.members import file_of, list_members, read_members
from pipeline.ingest.plain_csv import made_plain

if TYPE_CHECKING:
    from pipeline.config.project import Source

ASKED_BY = b"good-length-query"  # in what was fetched: hash of the query that it answers


def spooled(source: Source, folder: Path) -> tuple[Path, list[Problem]]:
    """Where the rows are to be read from, and files that can't be.

    The path is the source's own, or one in `folder`, whose files have the same names. Raises
    UserError for a database without a query, a query with a mistake, and rows of another query.
    """
    path = Path(source.path)
    if source.layout != "table":
        return path, []
    if source.connection_from:
        _check_fetched(source, path)
    elif source.query:
        return _asked(source, path, folder / f"{path.name}.parquet"), []
    elif databases.is_database(path):
        message = "a database: say which rows by 'query' in sources.yaml; python -m pipeline look"
        raise UserError(Problem(str(path), f"{message} {path} proposes one"))
    else:
        return _plain(source, path, folder)
    return path, []


def _check_fetched(source: Source, path: Path) -> None:
    """A query that was changed is in the settings that a build sees; a server's table is not."""
    try:
        kept = (pq.read_schema(path).metadata or {}).get(ASKED_BY)
    except (ValueError, OSError) as error:
        message = f"not a readable Parquet table: {words_of(error)}"
        raise UserError(Problem(str(path), message)) from None
    if kept != value_hash(source.query).encode():
        how = f"python -m pipeline fetch {source.id} asks the server again"
        raise UserError(Problem(str(path), f"not what today's 'query' asks for: {how}"))


def _asked(source: Source, path: Path, into: Path) -> Path:
    """The query's rows as a Parquet table."""
    if not path.is_file():
        message = "'query' goes with one file, not with a folder; leave it out, or join the files"
        raise UserError(Problem(str(path), message))
    if databases.kind_of(path) == "csv":
        path, _ = _plain(source, path, into.parent)
    asked = databases.ask(path, source.query or "", source.path)
    repeated = [name for name in asked.names if asked.names.count(name) > 1]
    if repeated:
        message = f"query: two of its columns are called '{repeated[0]}'; give one another name"
        raise UserError(Problem(source.path, message))
    if not _kept(asked, into):
        raise UserError(Problem(source.path, "query: it gives no rows"))
    return into


def _kept(asked: databases.Asked, into: Path) -> int:
    """Write the blocks; gives the number of rows."""
    writer: pq.ParquetWriter | None = None
    rows = 0
    try:
        for block in asked.blocks:
            writer = writer or pq.ParquetWriter(into, block.schema, compression="lz4")
            writer.write_batch(block)
            rows += block.num_rows
    finally:
        if writer:
            writer.close()
    return rows


def _plain(source: Source, path: Path, folder: Path) -> tuple[Path, list[Problem]]:
    """Plain copies of all its CSV files, where they are not plain themselves."""
    how = (source.written.delimiter, source.written.encoding)
    if how == ("comma", "utf-8"):
        return path, []
    names, problems = list_members(path, ".csv")
    if path.is_file() and path.suffix.lower() == ".csv":
        with path.open("rb") as whole:
            _copy(whole, folder / path.name, *how, str(path))
        return folder / path.name, problems
    for name, data in read_members(path, names):
        file = file_of(path, name)
        try:
            if isinstance(data, str):
                raise UserError(Problem(file, data))
            _copy(io.BytesIO(data), folder / name, *how, file)
        except UserError as error:
            problems += error.problems
    return folder, problems


def _copy(data: BinaryIO, into: Path, delimiter: str, encoding: str, file: str) -> None:
    """One file; none where it can't be read."""
    into.parent.mkdir(parents=True, exist_ok=True)
    try:
        with into.open("w", encoding="utf-8", newline="") as out:
            made_plain(data, out, delimiter, encoding, file)
    except UserError:
        into.unlink()
        raise
