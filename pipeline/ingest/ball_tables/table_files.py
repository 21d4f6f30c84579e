"""The files of a source of the layout `ball-tables`: which table each is of, opened, its lines."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import IO

from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.ingest.ball_tables.contract import FORMS, Table
from pipeline.ingest.ball_tables.match_contract import TABLES
from pipeline.ingest.members import DAMAGED, LARGEST_MEMBER, list_members, open_zip

NAMED = re.compile(rf"({'|'.join(TABLES)})(-[^/]*)?\.({'|'.join(FORMS)})", re.IGNORECASE)
DIGITS = re.compile(r"(\d+)")
# What reading raises for bytes that are not as they were written.
TORN = tuple(kind for kind in DAMAGED if kind not in (ValueError, KeyError, NotImplementedError))


@dataclass(frozen=True)
class TableFile:
    """One file of a source, in a folder or as a member of a zip."""

    path: Path
    name: str
    table: Table

    @property
    def label(self) -> str:
        """As it is named to people."""
        return f"{self.path}/{self.name}"

    @property
    def form(self) -> str:
        return PurePosixPath(self.name).suffix[1:].lower()

    @contextmanager
    def opened(self) -> Iterator[IO[bytes]]:
        """Its bytes, never unpacked to disk; a Parquet member is taken whole, since its end says
        where its columns begin."""
        try:
            if self.path.is_dir():
                with (self.path / self.name).open("rb") as file:
                    yield file
                return
            with open_zip(self.path) as archive, self._member(archive) as member:
                yield member if self.form == "csv" else self._whole(member)
        except TORN as error:
            raise self.unread(f"can't be read ({error}); fetch it again") from None

    def _member(self, archive: zipfile.ZipFile) -> IO[bytes]:
        try:
            return archive.open(self.name)
        except (RuntimeError, *DAMAGED) as error:
            raise self.unread(f"can't be unpacked ({error})") from None

    def _whole(self, member: IO[bytes]) -> IO[bytes]:
        data = member.read(LARGEST_MEMBER + 1)
        if len(data) > LARGEST_MEMBER:
            message = f"over {LARGEST_MEMBER:,} bytes, the most of a Parquet file in a zip; "
            raise self.unread(message + "put it in a folder, or in parts (deliveries-1.parquet)")
        return io.BytesIO(data)

    def unread(self, message: str, line: int | None = None) -> UserError:
        return UserError(self.problem(message, line))

    def problem(self, message: str, line: int | None = None) -> Problem:
        return Problem(self.label, message, line, None if line is None else 1)


def find_files(path: Path) -> tuple[dict[str, list[TableFile]], list[Problem]]:
    """The files of each table, parts in the order of their names; and what is refused.

    Raises UserError for a source without one of the tables that are needed.
    """
    endings = tuple(f".{form}" for form in FORMS)
    names, problems = list_members(path, endings, largest=None)
    found: dict[str, list[TableFile]] = {name: [] for name in TABLES}
    for name in sorted(names, key=_in_order):
        last = PurePosixPath(name).name
        if last.startswith("."):  # what systems leave beside files
            continue
        if known := NAMED.fullmatch(last):
            table = known[1].lower()
            found[table].append(TableFile(path, name, TABLES[table]))
        else:
            hint = did_you_mean(last.split(".")[0].lower(), TABLES)
            problems.append(Problem(f"{path}/{name}", f"no table of this layout{hint}"))
    missing = [name for name, table in TABLES.items() if table.needed and not found[name]]
    if missing:
        message = f"no table {' and no table '.join(missing)} in it (a .csv or .parquet file each)"
        raise UserError([*problems, Problem(str(path), message)])
    return found, problems


def _in_order(name: str) -> list[tuple[int, str]]:
    """Part 10 comes after part 2."""
    parts = DIGITS.split(name.lower())
    return [(int(part), "") if part.isdecimal() else (-1, part) for part in parts]
