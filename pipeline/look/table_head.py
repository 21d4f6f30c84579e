"""The head of a table: its columns as text, and how the file is written."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from pathlib import Path

import pyarrow.parquet as pq

from pipeline.errors import Problem, UserError, words_of
from pipeline.ingest.databases import kind_of
from pipeline.ingest.members import check_there, file_of, list_members, read_members
from pipeline.ingest.other_forms import DELIMITERS
from pipeline.ingest.row_beside import INFO, INNINGS, MATCHES
from pipeline.ingest.text_blocks import File
from pipeline.ingest.text_parquet import DAMAGED, stream_parquet
from pipeline.look.joined_tables import Joined
from pipeline.look.sampled import Column, date_forms

BYTES, ROWS, FILES = 8_000_000, 100_000, 40  # the most that is looked at
TRIED = 20  # rows by which a delimiter is known


@dataclass(frozen=True)
class Head:
    """What was looked at; of a database the tables that its rows are joined of."""

    path: Path
    columns: list[Column]
    rows: int
    delimiter: str = "comma"
    encoding: str = "utf-8"
    joined: Joined | None = None
    notes: list[str] = field(default_factory=list)


def head_of(path: Path) -> Head:
    """Of a CSV, a Parquet table, or a folder or zip of CSVs. Raises UserError for what is none."""
    check_there(path)
    suffix = ".parquet" if kind_of(path) == "parquet" else ".csv"
    if _alone(path) and path.suffix.lower() != suffix:
        message = f"its name does not end in {suffix}; give it one that does: a build goes by it"
        raise UserError(Problem(str(path), message))
    if suffix == ".parquet":
        return _of_parquet(path)
    parts: list[tuple[list[str], list[list[str]]]] = []
    left, form = BYTES, ("comma", "utf-8")
    for file, data in _pieces(path):
        text, encoding = decoded(data[:left], whole=len(data) <= left)
        delimiter = delimiter_of(text, file)
        parts.append(_cells(text, delimiter, whole=len(data) <= left))
        form, left = (delimiter, encoding), left - len(data)
        if left <= 0:
            break
    return _joined(path, parts, *form)


def _pieces(path: Path) -> Iterator[tuple[str, bytes]]:
    """The beginning of each file, with its name."""
    if _alone(path):
        with path.open("rb") as whole:
            yield str(path), whole.read(BYTES + 1)
        return
    listed, _ = list_members(path, ".csv")
    names = [name for name in listed if not _stands_beside(name)]
    if not names:
        raise UserError(Problem(str(path), "no CSV with rows of deliveries in it"))
    for name, data in read_members(path, names[:FILES]):
        if isinstance(data, str):
            raise UserError(Problem(file_of(path, name), data))
        yield file_of(path, name), data


def _stands_beside(name: str) -> bool:
    """Whether a file says something of matches or innings, and not of deliveries."""
    return name.lower().endswith(INFO) or Path(name).name.lower() in (MATCHES, INNINGS)


def _alone(path: Path) -> bool:
    """Whether it is a CSV itself: not a folder, nor an archive."""
    with path.open("rb") if path.is_file() else io.BytesIO(b"PK") as file:
        return file.read(2) != b"PK"


def _joined(
    path: Path, parts: list[tuple[list[str], list[list[str]]]], delimiter: str, encoding: str
) -> Head:
    """Files one after the other; those with another header are told."""
    header = parts[0][0]
    _check_header(path, header)
    alike = [rows for names, rows in parts if names == header]
    rows = [row for part in alike for row in part][:ROWS]
    notes = []
    if len(alike) < len(parts):
        notes.append(f"{len(parts) - len(alike)} of {len(parts)} files have another header")
    columns = [
        Column(name, [row[at] if at < len(row) else "" for row in rows])
        for at, name in enumerate(header)
        if name
    ]
    if not rows:
        raise UserError(Problem(str(path), "no row under its header"))
    return Head(path, columns, len(rows), delimiter, encoding, notes=notes)


def _check_header(path: Path, header: Sequence[str]) -> None:
    """The first row has names, not cells."""
    numbers = sum(cell.strip().replace(".", "", 1).isdecimal() for cell in header)
    dates = sum(bool(date_forms(Column("", [cell]))) for cell in header)
    if numbers + dates > 1 or len(header) < 2:
        message = (
            "its first line has no names of columns; write one above it, "
            "such as match,date,innings,over,batter,..."
        )
        raise UserError(Problem(str(path), message, 1, 1))


def decoded(data: bytes, whole: bool = True) -> tuple[str, str]:
    """A CSV's text, and the encoding that reads it; a piece may end inside a letter."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data[: len(data) // 2 * 2].decode("utf-16", "replace"), "utf-16"
    for cut in range(1 if whole else 4):
        try:
            return data[: len(data) - cut].decode("utf-8-sig"), "utf-8"
        except UnicodeDecodeError:
            continue
    return data.decode("windows-1252", "replace"), "windows-1252"


def delimiter_of(text: str, file: str) -> str:
    """What stands between the cells: what makes rows of one length, the most cells first."""
    best, most = "comma", 1
    for name, mark in DELIMITERS.items():
        try:
            rows = list(islice((row for row in _rows(text, mark) if row), TRIED))
        except csv.Error:
            continue
        cells = len(rows[0]) if rows else 0
        alike = sum(abs(len(row) - cells) <= 1 for row in rows)
        if cells > most and alike * 10 >= len(rows) * 9:
            best, most = name, cells
    if most < 2:
        message = "no table: no row has two cells with a comma, semicolon, tab or bar between"
        raise UserError(Problem(file, message))
    return best


def _rows(text: str, mark: str) -> Iterator[list[str]]:
    return csv.reader(io.StringIO(text, newline=""), delimiter=mark)


def _cells(text: str, delimiter: str, whole: bool) -> tuple[list[str], list[list[str]]]:
    """The header and the rows under it; the last of a piece may be half of one."""
    rows = [row for row in islice(_rows(text, DELIMITERS[delimiter]), ROWS + 2) if any(row)]
    header = [name.strip() for name in rows[0]]
    return header, rows[1:] if whole else rows[1:-1]


def _of_parquet(path: Path) -> Head:
    file = File(path, path.name)
    with file.opened() as data:
        try:
            names = pq.ParquetFile(data).schema_arrow.names
        except DAMAGED as error:
            message = f"not a readable Parquet table: {words_of(error)}"
            raise UserError(Problem(str(path), message)) from None
    columns, notes = [], []
    for at, name in enumerate(names):
        try:
            column = next(stream_parquet(file, partial(_one, name=name, place=at)), None)
        except UserError as error:
            notes.append(error.problems[0].message)
            continue
        if column:
            texts = column[name].values
            columns.append(Column(name, [texts[code] for code in column[name].codes[:ROWS]]))
    if not columns:
        raise UserError(Problem(str(path), "no row in it"))
    return Head(path, columns, len(columns[0].cells), notes=notes)


def _one(header: list[str], name: str, place: int) -> dict[str, int]:
    """A single column of a table."""
    return {name: place}
