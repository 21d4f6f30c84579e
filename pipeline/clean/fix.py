"""Applying corrections to the rows they name: sheets, matches, innings."""

from __future__ import annotations

from typing import Any

import duckdb
import pyarrow as pa

from pipeline.clean.corrections import Correction, apply, typed
from pipeline.clean.identities import of_today
from pipeline.clean.missing import missing, near
from pipeline.csv_files import Row
from pipeline.errors import UserError

Record = dict[str, Any]


def of_level(corrections: list[Correction], *levels: str) -> list[Correction]:
    return [correction for correction in corrections if correction.level in levels]


def fix_sheet(
    rows: list[Row], key: str, blank: Row, there: set[str], corrections: list[Correction]
) -> list[Row]:
    """A sheet with its corrections.

    One that the sheet lacks is begun, all its fields blank, if the data have it (`there`).
    """
    by_key: dict[str, Row] = {row[key]: dict(row) for row in rows}
    place = "player" if key == "id" else key

    def find(correction: Correction) -> Row | None:
        name = correction.place[place]
        if name in by_key or name not in there:
            return by_key.get(name)
        return by_key.setdefault(name, {**blank, key: name})

    def nobody(correction: Correction) -> str:
        name = correction.place[place]
        like = of_today(name, there)
        hint = f" (ids no longer hold gender: write '{like}')" if like else near(name, there)
        return f"no {place} '{name}' in the data or the sheet{hint}"

    apply(corrections, find, nobody, _set_text)
    return list(by_key.values())


def _set_text(row: Record, correction: Correction) -> None:
    row[correction.field] = correction.new


def _set(row: Record, correction: Correction) -> None:
    """A match that is moved to another day keeps its length."""
    value = typed(correction.field, correction.new)
    if correction.field == "date":
        row["last_day"] += value - row["date"]
    row[correction.field] = value


def _check_sides(fixed: list[tuple[Correction, Record]]) -> None:
    """Who won, the match or the toss, is one of its sides: any other is taken for nobody."""
    problems = []
    for correction, row in fixed:
        if correction.field in ("winner", "toss_winner") and correction.new:
            sides = (row["team_1"], row["team_2"])
            if correction.new not in sides:
                told = f"'{correction.new}' is no side of it ({' and '.join(map(str, sides))})"
                problems.append(correction.problem(f"{correction.where()}: {told}"))
    if problems:
        raise UserError(problems)


def fix_rows(
    db: duckdb.DuckDBPyConnection,
    table: str,
    keys: tuple[str, ...],
    corrections: list[Correction],
) -> None:
    """Correct rows of a small table (`kept` matches, their innings) in place."""
    if not corrections:
        return
    names = {"match_id": "match", "innings": "innings"}
    rows = db.sql(f"SELECT * FROM {table}").to_arrow_table()
    records = rows.to_pylist()
    by_key = {tuple(str(row[key]) for key in keys): row for row in records}

    def find(correction: Correction) -> Record | None:
        return by_key.get(tuple(correction.place[names[key]] for key in keys))

    apply(corrections, find, lambda c: missing(db, c), _set)
    _check_sides([(c, row) for c in corrections if (row := find(c))])
    changed = pa.Table.from_pylist(records, rows.schema)
    db.register("changed_rows", changed)
    db.execute(f"CREATE OR REPLACE TABLE {table} AS SELECT * FROM changed_rows")
    db.unregister("changed_rows")
