"""people.csv: which ids are one person, read and held against who is in the data."""

from __future__ import annotations

from collections.abc import Sequence

import duckdb

from pipeline.clean.identities import all_ids, of_today, put_identities
from pipeline.clean.missing import near
from pipeline.clean.sheets import Rows
from pipeline.csv_files import check_unique, once_each, read_sheet
from pipeline.errors import Problem, UserError

COLUMNS = ("id", "same_as", "reason", "source")
BLANK = {
    "id": "name the id that is another's",
    "same_as": "name the id to keep",
    "reason": "say how it is known",
}
FEW = 6  # ids on a way that are named


def read_merges(path: str | None) -> Rows:
    """Every line, a step each: chains may be of any length, but have an end."""
    rows = read_sheet(path, COLUMNS)
    check_unique(str(path), rows, "id")
    target = {row["id"]: row["same_as"] for _, row in rows}
    problems = []
    for line, row in rows:
        wrong = [f"{name} is blank; {mend}" for name, mend in BLANK.items() if not row[name]]
        if row["id"] and row["id"] == row["same_as"]:
            wrong.append(f"'{row['id']}' is said to be itself; drop the line")
        elif way := _round(row["id"], target):
            wrong.append(_in_a_circle(way))
        problems += [Problem(str(path), message, line, 1) for message in wrong]
    if problems:
        raise UserError(once_each(problems))
    return rows


def _round(identity: str, target: dict[str, str]) -> list[str]:
    """The ids on the way to one that it comes to again; none where the way has an end."""
    way, at = dict.fromkeys([identity]), identity
    while (at := target.get(at, "")) and at not in way:
        way[at] = None
    return [*way, at] if at else []


def _in_a_circle(way: Sequence[str]) -> str:
    told = ", ".join(f"'{each}'" for each in way[:FEW])
    more = ", …" if len(way) > FEW else ""
    return (
        f"'{way[0]}' leads round in a circle ({told}{more}); drop the line of the id that is to be "
        "kept"
    )


def tell_apart(
    db: duckdb.DuckDBPyConnection, file: str | None, merges: Rows, listed: set[str]
) -> None:
    """Put who is who into the database (`put_identities`).

    An id that is nobody's is a slip of the pen, or a merge that no longer applies: both of a line
    are somebody in the data, the one to keep may be one of the players' sheet alone (`listed`).

    Raises UserError with every line that names nobody, or leads round in a circle.
    """
    circles = put_identities(db, {row["id"]: row["same_as"] for _, row in merges})
    there = all_ids(db)
    lines = {row["id"]: line for line, row in merges}
    problems = []
    for line, row in merges:
        if row["id"] not in there:
            message = f"nobody in the data has the id '{row['id']}'"
            mend = _mend(row["id"], there, "drop the line")
            problems.append(Problem(str(file), message + mend, line, 1))
        if row["same_as"] not in there | listed | lines.keys():
            message = f"same_as '{row['same_as']}' is nobody in the data or in the players' sheet"
            mend = _mend(row["same_as"], there | listed, "write the id to keep as it is there")
            problems.append(Problem(str(file), message + mend, line, 1))
    for each in circles:
        line = next(lines[name] for name in (each.id, *each.way) if name in lines)
        way = each.way if each.way[0] == each.id else [each.id, *each.way]
        said = f"in matches of gender {each.gender} {_in_a_circle(way)}"
        problems.append(Problem(str(file), said, line, 1))
    if problems:
        raise UserError(once_each(problems))


def _mend(identity: str, there: set[str], else_do: str) -> str:
    if today := of_today(identity, there):
        return f"; ids no longer hold gender: write '{today}'"
    return f"{near(identity, there)}; {else_do}"
