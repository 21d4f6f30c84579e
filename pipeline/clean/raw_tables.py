"""The sources' raw tables: whether they are there, and which is damaged when reading one fails."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import duckdb
import pyarrow as pa

from pipeline.batches import LIST, TABLES, files_of
from pipeline.errors import Problem, UserError, words_of
from pipeline.tables import read_table

MEND = "run make brief"


def check_there(folders: dict[str, Path]) -> None:
    """Raises UserError for the first source that lacks a table."""
    for path, _ in _files(folders):
        if not path.is_file():
            raise UserError(Problem(str(path), f"no such table; {MEND}, which makes it"))


def _files(folders: dict[str, Path]) -> Iterator[tuple[Path, pa.Schema]]:
    """Every file of every source's tables, with the columns that it has."""
    for folder in folders.values():
        if not (folder / LIST).is_file():
            problem = f"no such list of tables; {MEND}, which makes it"
            raise UserError(Problem(str(folder / LIST), problem))
        for name, schema in TABLES.items():
            yield from ((path, schema) for path in files_of(folder, name))


@contextmanager
def reading(folders: dict[str, Path], data: Path) -> Iterator[None]:
    """What the database can't do for a damaged table or a full disk, told as that.

    The tables are looked through only then: to read them all twice would cost too much.
    """
    try:
        yield
    except duckdb.Error as error:
        raise_if_damaged(folders)
        mend = f"check the free space, then {MEND}; no file is half written"
        if isinstance(error, duckdb.OutOfMemoryException):  # nor had the disk room for the rest
            message = f"what the memory can't hold found no room on the disk: {mend}"
            raise UserError(Problem(str(data), message)) from None
        if isinstance(error, duckdb.IOException):
            raise UserError(Problem(str(data), f"{words_of(error)}: {mend}")) from None
        raise


def raise_if_damaged(folders: dict[str, Path]) -> None:
    """Raises UserError for the first table that can't be read whole, or is not what it should."""
    for path, schema in _files(folders):
        try:
            table = read_table(path, schema)
            table.validate(full=True)
            other = table.select(schema.names).schema.types != schema.types
        except UserError as error:
            told = [replace(each, message=f"{each.message}; {MEND}") for each in error.problems]
            raise UserError(told) from None
        except pa.ArrowException as error:
            raise UserError(Problem(str(path), f"damaged ({words_of(error)}); {MEND}")) from None
        if other:
            raise UserError(Problem(str(path), f"not the columns that it should have; {MEND}"))
