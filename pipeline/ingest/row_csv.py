"""A CSV file with a row a delivery as text, each row with its line."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable
from typing import NamedTuple

import pandas as pd

from pipeline.errors import Problem, UserError, words_of
from pipeline.ingest.info_csv import decoded

Picked = Callable[[list[str]], dict[str, int]]
_QUOTE = re.compile(r"EOF inside string starting at row (\d+)")


class Row(NamedTuple):
    """The line where it begins, and how many cells it has: none where all of them are blank."""

    line: int
    cells: int


def read_csv(data: bytes, file: str, picked: Picked) -> pd.DataFrame:
    """The picked columns under our names, and `line`; rows of nothing but blanks are passed over.

    A comma at a line's end, after the last cell, is no cell. Raises UserError for rows of another
    length than the header, and for a file that ends in the middle of a row.
    """
    text = decoded(data, file)
    body = text.lstrip("\r\n")
    before = len(text[: len(text) - len(body)].splitlines())
    header = _header(body, file)
    places = picked(header)
    rows = _rows(body, file, before, len(header))
    frame = _cells(body, file, rows, header)
    _check_lengths(body, file, rows, header)
    if len(rows) != len(frame):
        message = "not a readable CSV: quotation marks that can be read in two ways"
        raise UserError(Problem(file, message))
    frame["line"] = [row.line for row in rows]
    frame = frame[[row.cells > 0 for row in rows]].iloc[1:]
    cells = {ours: frame[str(place)] for ours, place in places.items()}
    return pd.DataFrame({**cells, "line": frame["line"]}).reset_index(drop=True)


def _header(body: str, file: str) -> list[str]:
    try:
        found = next(csv.reader(io.StringIO(body, newline=""), strict=True), None)
    except csv.Error as error:
        raise UserError(Problem(file, f"not a readable CSV: {error}", 1, 1)) from None
    if found is None:
        raise UserError(Problem(file, "not a readable CSV: there is nothing in it"))
    return found


def _rows(body: str, file: str, before: int, count: int) -> list[Row]:
    """Each row, the header too; a cell may hold line breaks."""
    reader = csv.reader(io.StringIO(body, newline=""))
    rows, line = [], before + 1
    try:
        for cells in reader:
            last = len(cells) == count + 1 and not cells[-1]  # a comma after the last cell
            rows.append(Row(line, len(cells) - last if any(cells) else 0))
            line = before + reader.line_num + 1
    except csv.Error as error:
        raise UserError(Problem(file, f"not a readable CSV: {error}", line, 1)) from None
    return rows


def _cells(body: str, file: str, rows: list[Row], header: list[str]) -> pd.DataFrame:
    """All cells as text, the header's too; one column more than it has, named by their places."""
    try:
        return pd.read_csv(
            io.StringIO(body),
            header=None,
            names=[str(place) for place in range(len(header) + 1)],
            index_col=False,
            dtype=str,
            keep_default_na=False,
            skip_blank_lines=False,
        ).fillna("")
    except pd.errors.ParserError as error:
        said = words_of(error)
        if found := _QUOTE.search(said):
            message = "not a readable CSV: a quotation mark is never closed"
            raise UserError(Problem(file, message, rows[int(found[1])].line, 1)) from None
        _check_lengths(body, file, rows, header)
        raise UserError(Problem(file, f"not a readable CSV: {said}")) from None


def _check_lengths(body: str, file: str, rows: list[Row], header: list[str]) -> None:
    """Nothing stands beyond the last column, and what a row lacks is not blank.

    The header's own comma at the line's end is no column that a row could lack.
    """
    most, least = len(header), len(header) - (not header[-1])
    if long := [row for row in rows if row.cells > most]:
        raise UserError(_told(file, long, most, "quote commas"))
    short = [row for row in rows if 0 < row.cells < least]
    if short[:1] == rows[-1:] and body[-1] not in "\r\n":
        message = "the file ends in the middle of this row; fetch it again"
        raise UserError(Problem(file, message, rows[-1].line, 1))
    if short:
        raise UserError(_told(file, short, least, "a blank cell needs its comma"))


def _told(file: str, wrong: list[Row], columns: int, mend: str) -> Problem:
    alike = f", as on {len(wrong) - 1:,} more line(s)" if len(wrong) > 1 else ""
    message = f"{wrong[0].cells} cells under {columns} columns{alike}; {mend}"
    return Problem(file, message, wrong[0].line, 1)
