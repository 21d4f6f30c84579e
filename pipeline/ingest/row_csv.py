"""A CSV file with a row a delivery as text, each row with its line."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable

import pandas as pd

from pipeline.errors import Problem, UserError, words_of
from pipeline.ingest.info_csv import decoded

Picked = Callable[[list[str]], dict[str, int]]
_LENGTH = re.compile(r"Expected \d+ fields in line (\d+), saw (\d+)")
_QUOTE = re.compile(r"EOF inside string starting at row (\d+)")


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
    frame = _cells(body, file, before, len(header))
    _check_end(body, file, before + len(frame), len(header))
    frame["line"] = range(before + 1, before + len(frame) + 1)
    frame = frame.iloc[1:]
    blank = (frame.drop(columns="line") == "").all(axis=1)
    frame = frame[~blank]
    _check_rest(frame, file, len(header))
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


def _cells(body: str, file: str, before: int, count: int) -> pd.DataFrame:
    """All cells as text, the header's too; one column more than it has, named by their places."""
    try:
        return pd.read_csv(
            io.StringIO(body),
            header=None,
            names=[str(place) for place in range(count + 1)],
            index_col=False,
            dtype=str,
            keep_default_na=False,
            skip_blank_lines=False,
        ).fillna("")
    except pd.errors.ParserError as error:
        raise UserError(_told(words_of(error), file, before, count)) from None


def _told(said: str, file: str, before: int, count: int) -> Problem:
    """The parser's message in our words."""
    if found := _LENGTH.search(said):
        line, cells = int(found[1]) + before, found[2]
        return Problem(file, f"{cells} cells under {count} columns; quote commas", line, 1)
    if found := _QUOTE.search(said):
        line = int(found[1]) + before + 1
        return Problem(file, "not a readable CSV: a quotation mark is never closed", line, 1)
    return Problem(file, f"not a readable CSV: {said}")


def _check_rest(frame: pd.DataFrame, file: str, count: int) -> None:
    """Nothing stands beyond the last column."""
    wrong = frame[frame[str(count)] != ""]
    if len(wrong):
        alike = f", as on {len(wrong) - 1:,} more line(s)" if len(wrong) > 1 else ""
        message = f"{count + 1} cells under {count} columns{alike}; quote commas"
        raise UserError(Problem(file, message, int(wrong["line"].iloc[0]), 1))


def _check_end(body: str, file: str, line: int, count: int) -> None:
    """A last row that is short and has no line end was cut: what it lacks is not blank."""
    last = re.split(r"[\r\n]", body)[-1]
    if last and '"' not in last and last.count(",") < count - 1:
        message = "the file ends in the middle of this row; fetch it again"
        raise UserError(Problem(file, message, line, 1))
