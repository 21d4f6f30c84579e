"""CSV in and out: headers checked with their lines; cells a spreadsheet would run made harmless."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from pipeline.digits import rounded
from pipeline.errors import Problem, UserError, did_you_mean, not_utf_8

# A spreadsheet runs a cell that begins so (OWASP, "CSV Injection"), unless it is a plain number.
_RUN = re.compile(r"^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]")
_NUMBER = re.compile(r"^[+-]?\d[\d,]*(\.\d+)?([eE][+-]?\d+)?%?$")
Row = dict[str, str]
FEW = 3  # lines with the same mistake that are each told


def neutral(value: Any) -> Any:
    """The same, or text with an apostrophe before it where a spreadsheet would run it."""
    if isinstance(value, str) and _RUN.match(value) and not _NUMBER.match(value):
        return f"'{value}"
    return value


def plain(text: str) -> str:
    """A cell as it was before `neutral`."""
    return text[1:] if text[:1] == "'" and _RUN.match(text[1:]) else text


def csv_text(rows: Iterable[dict[str, Any]], columns: Sequence[str]) -> str:
    """Rows as CSV under a header; other keys are passed over, None is empty.

    Names of columns are made harmless as cells are: a side's name may begin one.
    """
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, extrasaction="ignore", lineterminator="\n")
    writer.writerow({name: neutral(name) for name in columns})
    writer.writerows({key: neutral(rounded(value)) for key, value in row.items()} for row in rows)
    return out.getvalue()


def read_sheet(
    path: str | None, needed: Sequence[str], optional: Sequence[str] = ()
) -> list[tuple[int, Row]]:
    """Rows with their line numbers, cells stripped; every column is there, blank when absent.

    Raises UserError for a file that can't be read, a wrong header, or a row of another length.
    """
    if path is None:
        return []
    file = str(path)
    text = read_text_of(Path(path), "it is named in project.yaml")
    reader, done = csv.reader(io.StringIO(text, newline=""), strict=True), 0
    rows = []
    try:
        header = _header(next(reader, []))
        done = reader.line_num
        for cells in reader:
            done = reader.line_num
            if any(map(str.strip, cells)):
                rows.append((done, cells))
    except csv.Error as error:
        message = f"not a readable CSV: {error}; the quotes from this line on do not pair"
        raise UserError(Problem(file, message, done + 1, 1)) from None
    _check_header(file, header, needed, optional)
    _check_lengths(file, header, rows)
    blank = dict.fromkeys((*needed, *optional), "")
    return [
        (line, {**blank, **dict(zip(header, (plain(c.strip()) for c in cells), strict=False))})
        for line, cells in rows
    ]


def read_text_of(path: Path, hint: str = "") -> str:
    """A sheet's text; what is no file is not opened, since a pipe or a device might never end.

    Raises UserError ending in the `hint`, if any, where it is none, or is not there.
    """
    hint = hint and f"; {hint}"
    try:
        if path.exists() and not path.is_file():
            raise UserError(Problem(str(path), f"not a file{hint}"))
        text = path.read_text("utf-8-sig")
    except FileNotFoundError:
        raise UserError(Problem(str(path), f"no such file{hint}")) from None
    except UnicodeDecodeError as error:
        raise UserError(not_utf_8(path, error)) from None
    except OSError as error:
        raise UserError(Problem(str(path), f"can't be read: {error.strerror}")) from None
    if "\0" in text:
        raise UserError(Problem(str(path), "not a text file (a NUL byte in it)"))
    return text


def once_each(problems: Iterable[Problem]) -> list[Problem]:
    """The same mistake on many lines of a file as one problem: the first, and where the others are.

    A mistake on two or three lines is told on each of them.
    """
    found: dict[tuple[str, str], list[Problem]] = {}
    for problem in problems:
        found.setdefault((problem.file, problem.message), []).append(problem)
    return sorted(told for alike in found.values() for told in _told_once(alike))


def _told_once(alike: list[Problem]) -> list[Problem]:
    if len(alike) <= FEW:
        return alike
    first = min(alike)
    message = f"{first.message} (and so on {len(alike) - 1:,} more lines)"
    return [replace(first, message=message)]


def _header(cells: list[str]) -> list[str]:
    """The names of the columns; commas at the line's end are nothing."""
    names = [name.strip() for name in cells]
    while names and not names[-1]:
        names.pop()
    return names


def _check_header(
    file: str, header: list[str], needed: Sequence[str], optional: Sequence[str]
) -> None:
    missing = [name for name in needed if name not in header]
    stray = [name for name in header if name not in (*needed, *optional)]
    if missing:
        hint = f" (it has {', '.join(stray)})" if stray else ""
        message = f"no column {', '.join(missing)}{hint}; expected {', '.join(needed)}"
        raise UserError(Problem(file, message, 1, 1))
    if stray:
        hint = did_you_mean(stray[0], [*needed, *optional])
        raise UserError(Problem(file, f"unknown column '{stray[0]}'{hint}", 1, 1))
    if twice := [name for name in header if header.count(name) > 1]:
        raise UserError(Problem(file, f"column '{twice[0]}' stands twice; keep one", 1, 1))


def _check_lengths(file: str, header: list[str], rows: list[tuple[int, list[str]]]) -> None:
    """Rows may be short, but nothing stands beyond the last column; a last comma is nothing."""
    wrong = [line for line, cells in rows if any(cells[len(header) :])]
    if wrong:
        message = f"more cells than the {len(header)} columns; quote commas"
        raise UserError(once_each(Problem(file, message, line, 1) for line in wrong))


def check_unique(file: str, rows: list[tuple[int, Row]], *keys: str) -> None:
    """Each key stands on one line only."""
    seen: dict[tuple[str, ...], int] = {}
    problems = []
    for line, row in rows:
        key = tuple(row[name] for name in keys)
        if key in seen:
            named = ", ".join(
                f"{k} '{v}'" for k, v in zip(keys, key, strict=True) if v or k == keys[0]
            )
            message = f"{named} stands on line {seen[key]} too; keep one of them"
            problems.append(Problem(file, message, line, 1))
        seen.setdefault(key, line)
    if problems:
        raise UserError(once_each(problems))
