"""A CSV file row by row, each with its line: slow, and asked only where something is odd.

The quick reader (`text_csv.py`) gives whatever it can't read as it stands to this one, which says
what is wrong and where, or reads it.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager
from itertools import islice
from typing import IO, NamedTuple

from pipeline.errors import Problem, UserError
from pipeline.ingest.other_forms import HEAD, first_undecoded, not_utf_8

Opened = Callable[[], AbstractContextManager[IO[bytes]]]
Picked = Callable[[list[str]], dict[str, int]]
PIECE = 1 << 24  # bytes looked at at once
SLOW_ROWS = 100_000  # rows given at once


class Row(NamedTuple):
    """The line where a row begins, and its cells."""

    line: int
    cells: list[str]


class Rows(NamedTuple):
    """Some rows: our columns' cells, and the place of each among those that are no empty lines."""

    columns: dict[str, list[str]]
    places: list[int]


def check_text(opened: Opened, file: str) -> None:
    """Raises UserError where the bytes are no text."""
    with opened() as data:
        wrong = first_undecoded(data)
    if wrong:
        with opened() as data:
            message = not_utf_8(data.read(HEAD), wrong)
        raise UserError(Problem(file, message, wrong.line, 1))


def rows_of(opened: Opened, file: str) -> Iterator[Row]:
    """Each row that is no empty line, the header first; a cell may hold line breaks.

    Raises UserError with the line of a row whose quotation marks can't be told.
    """
    with opened() as data, io.TextIOWrapper(data, "utf-8-sig", newline="") as text:
        reader = csv.reader(text, strict=True)
        line = 1
        try:
            for cells in reader:
                if cells:
                    yield Row(line, cells)
                line = reader.line_num + 1
        except csv.Error as error:
            raise UserError(Problem(file, _unreadable(error), line, 1)) from None


def _unreadable(error: csv.Error) -> str:
    said = str(error)
    if said == "unexpected end of data":
        said = "a quotation mark is never closed"
    elif "expected after" in said:
        said = "a quotation mark inside a cell; double it"
    return f"not a readable CSV: {said}"


def header_of(opened: Opened, file: str) -> list[str]:
    """The first row. Raises UserError for a file without one."""
    first = next(rows_of(opened, file), None)
    if first is None:
        raise UserError(Problem(file, "not a readable CSV: there is nothing in it"))
    return first.cells


def read_by_line(opened: Opened, file: str, picked: Picked) -> Iterator[Rows]:
    """The picked columns, in pieces; rows of nothing but blanks are passed over.

    A comma at a line's end, after the last cell, is no cell. Raises UserError for rows of another
    length than the header, and for a file that ends in the middle of a row, before any is given.
    """
    check_text(opened, file)
    header = header_of(opened, file)
    places = picked(header)
    check_lengths(opened, file, header)
    told = ((place, row.cells) for place, row in enumerate(_after_header(opened, file)))
    kept = ((place, cells) for place, cells in told if any(cells))
    while piece := list(islice(kept, SLOW_ROWS)):
        columns = {
            ours: [cells[at] if at < len(cells) else "" for _, cells in piece]
            for ours, at in places.items()
        }
        yield Rows(columns, [place for place, _ in piece])


def lines_of(opened: Opened, file: str, places: Sequence[int]) -> dict[int, int]:
    """The lines of some rows of a file that can be read."""
    wanted, last = set(places), max(places)
    found = {}
    for place, row in enumerate(_after_header(opened, file)):
        if place in wanted:
            found[place] = row.line
        if place >= last:
            break
    return found


def _after_header(opened: Opened, file: str) -> Iterator[Row]:
    return islice(rows_of(opened, file), 1, None)


class _Wrong:
    """Rows of a wrong length: the first of them, and how many."""

    def __init__(self) -> None:
        self.line, self.cells, self.count = 0, 0, 0

    def add(self, row: Row, cells: int) -> None:
        if not self.count:
            self.line, self.cells = row.line, cells
        self.count += 1

    def told(self, file: str, columns: int, mend: str) -> Problem:
        alike = f", as on {self.count - 1:,} more line(s)" if self.count > 1 else ""
        message = f"{self.cells} cells under {columns} columns{alike}; {mend}"
        return Problem(file, message, self.line, 1)


def check_lengths(opened: Opened, file: str, header: list[str]) -> None:
    """Nothing stands beyond the last column, and what a row lacks is not blank.

    The header's own comma at the line's end is no column that a row could lack.
    """
    most, least = len(header), len(header) - (not header[-1])
    long, short, last = _Wrong(), _Wrong(), 0
    for row in _after_header(opened, file):
        last = row.line
        extra = len(row.cells) == most + 1 and not row.cells[-1]  # a comma after the last cell
        cells = len(row.cells) - extra if any(row.cells) else 0
        if cells > most:
            long.add(row, cells)
        elif 0 < cells < least:
            short.add(row, cells)
    if long.count:
        raise UserError(long.told(file, most, "quote commas"))
    if short.count and short.line == last and not _ends_whole(opened):
        message = "the file ends in the middle of this row; fetch it again"
        raise UserError(Problem(file, message, last, 1))
    if short.count:
        raise UserError(short.told(file, least, "a blank cell needs its comma"))


def _ends_whole(opened: Opened) -> bool:
    """Whether the last line has its end."""
    with opened() as data:
        data.seek(-1, io.SEEK_END)
        return data.read(1) in b"\r\n"
