"""Cells of the players' sheet that can't be read: named with their lines, since they hide balls.

They are no errors: what a cell does not tell stays unknown, as if it were blank.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import duckdb
import pyarrow as pa

from pipeline.clean.corrections import Correction
from pipeline.clean.identities import of_today
from pipeline.clean.style_words import KNOWN
from pipeline.clean.styles import Told, read_hand, read_style
from pipeline.contracts.quality import Odd
from pipeline.csv_files import Row, once_each
from pipeline.errors import Problem, did_you_mean, nearest

MOST = 200  # different texts that are named; the count is whole
HANDS = ("left", "right", "left-hand bat", "right-hand bat", "LHB", "RHB")
STYLE, HAND, OLD = "styles_that_cannot_be_read", "hands_that_cannot_be_read", "ids_of_old_form"
NOBODY = "lines_of_nobody"
KINDS = (STYLE, HAND, OLD, NOBODY)
Sheet = list[tuple[int, Row]]


def unread(
    file: str | None,
    sheet: Sheet,
    fixed: list[Row],
    corrections: list[Correction],
    there: set[str],
) -> pa.Table:
    """One row a cell: what kind, and where and what it is.

    `fixed` are the sheet's rows with their corrections: a cell that a correction filled is told
    with the correction's line. `there` are the ids in the data.
    """
    found: list[tuple[str, Problem]] = []
    lines = {row["id"]: (str(file), line, row) for line, row in sheet}
    for row in fixed:
        for column, kind, said in _cells(row):
            found.append((kind, _at(row, column, lines, corrections, said)))
    for line, row in sheet:
        if today := of_today(row["id"], there):
            message = f"id '{row['id']}' is of nobody; ids no longer hold gender: write '{today}'"
            found.append((OLD, Problem(_name(file), message, line)))
        elif row["id"] not in there:
            message = f"id '{row['id']}' is of nobody in the data"
            found.append((NOBODY, Problem(_name(file), message, line)))
    return pa.table(
        {
            "kind": pa.array([kind for kind, _ in found], pa.string()),
            "file": pa.array([each.file for _, each in found], pa.string()),
            "line": pa.array([each.line for _, each in found], pa.int64()),
            "message": pa.array([each.message for _, each in found], pa.string()),
        }
    )


def _cells(row: Row) -> Iterable[tuple[str, str, str]]:
    """The cells of a player that can't be read: the column, the kind, what to say of it."""
    hand = row["batting_hand"]
    if read_hand(hand) is None:
        yield "batting_hand", HAND, f"batting_hand '{hand}'{did_you_mean(hand, HANDS)}"
    style = row["bowling_style"]
    told = read_style(style)
    if told.unread:
        yield "bowling_style", STYLE, f"bowling_style '{style}'{_read_as(told)}"


def _read_as(told: Told) -> str:
    """What is not understood of it, what is, and the nearest spelling that would be."""
    part = told.unread[0]
    near = nearest(part, KNOWN)
    hint = f" (did you mean '{near}'?)" if near else f"; write such as '{KNOWN[1]}', '{KNOWN[9]}'"
    if told.first.kind != "unknown":
        return f": read as {told.first.style}, but not '{part}'{hint}"
    return hint


def _at(
    row: Row,
    column: str,
    lines: dict[str, tuple[str, int, Row]],
    corrections: list[Correction],
    said: str,
) -> Problem:
    """The place of a cell: the last correction that filled it, else its line of the sheet."""
    for fix in reversed(corrections):
        if (fix.place["player"], fix.field, fix.new) == (row["id"], column, row[column]):
            return Problem(_name(fix.file), said, fix.line)
    file, line, _ = lines[row["id"]]
    return Problem(_name(file), said, line)


def _name(file: str | None) -> str:
    """Without its folders: the report must not say where the project lies."""
    return Path(str(file)).name


def unread_told(db: duckdb.DuckDBPyConnection) -> dict[str, Odd]:
    """How many of each kind, and where; the same text on many lines is told once."""
    found = {}
    for kind in KINDS:
        rows = db.execute("SELECT file, message, line FROM unread WHERE kind = ?", [kind])
        problems = [Problem(*row) for row in rows.fetchall()]
        told = [_line(each) for each in once_each(problems)]
        found[kind] = Odd(count=len(problems), examples=told[:MOST])
    return found


def _line(problem: Problem) -> str:
    return f"{problem.file}, line {problem.line}: {problem.message}"
