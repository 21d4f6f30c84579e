"""Applying corrections to the rows they name: sheets, matches, innings, deliveries."""

from __future__ import annotations

from typing import Any

import duckdb
import numpy as np
import pyarrow as pa

from pipeline.clean.corrections import Correction, apply, typed
from pipeline.csv_files import Row
from pipeline.errors import UserError
from pipeline.ingest.columns import Codes, finish
from pipeline.ingest.laws import KINDS
from pipeline.tables import DELIVERIES, DISMISSALS, RAW

Record = dict[str, Any]
Place = tuple[str, int, int, int]  # match, innings, over, delivery
KEYS = ("match_id", "innings", "over", "delivery")


def of_level(corrections: list[Correction], level: str) -> list[Correction]:
    return [correction for correction in corrections if correction.level == level]


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

    apply(corrections, find, lambda c: f"no {c.where()} in the data or the sheet", _set_text)
    return list(by_key.values())


def _set_text(row: Record, correction: Correction) -> None:
    row[correction.field] = correction.new


def _set(row: Record, correction: Correction) -> None:
    """A match that is moved to another day keeps its length."""
    value = typed(correction.field, correction.new)
    if correction.field == "date":
        row["last_day"] += value - row["date"]
    row[correction.field] = value


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

    apply(corrections, find, lambda c: f"no {c.where()} in the data", _set)
    changed = pa.Table.from_pylist(records, rows.schema)
    db.register("changed_rows", changed)
    db.execute(f"CREATE OR REPLACE TABLE {table} AS SELECT * FROM changed_rows")
    db.unregister("changed_rows")


def fix_deliveries(
    db: duckdb.DuckDBPyConnection, corrections: list[Correction]
) -> tuple[pa.Table, pa.Table]:
    """The corrected deliveries and their dismissals, scored anew by the Laws.

    Reads the views `played` and `fallen`; rows that no correction names are left where they are.
    """
    if not corrections:
        return DELIVERIES.empty_table(), DISMISSALS.empty_table()
    rows = _touched(db, corrections)

    def missing(correction: Correction) -> str:
        at = correction.place
        query = "SELECT count(*) FROM played WHERE match_id = ? AND innings = ? AND over = ?"
        number = db.execute(query, [at["match"], int(at["innings"]), int(at["over"])]).fetchall()
        return f"no {correction.where()} in the data; that over has {number[0][0]} deliveries"

    apply(corrections, lambda c: rows.get(_key(c)), missing, _change)
    _check_dismissals(rows, corrections)
    return _scored(list(rows.values()))


def _touched(db: duckdb.DuckDBPyConnection, corrections: list[Correction]) -> dict[Place, Record]:
    places = sorted({_key(correction) for correction in corrections})
    columns = dict(zip(KEYS, zip(*places, strict=True), strict=True))
    db.register("places", pa.table({name: list(values) for name, values in columns.items()}))
    found = db.sql("SELECT d.* FROM played d JOIN places USING (match_id, innings, over, delivery)")
    rows = {_place(row): row for row in found.to_arrow_table().to_pylist()}
    for row in rows.values():
        row["dismissals"] = []
        row["dismissal"] = row["player_out_id"] = None
    outs = db.sql("SELECT f.* FROM fallen f JOIN places USING (match_id, innings, over, delivery)")
    for out in outs.to_arrow_table().to_pylist():
        row = rows[_place(out)]
        row["dismissals"].append((out["kind"], out["player_out_id"]))
        row["dismissal"], row["player_out_id"] = row["dismissals"][0]
    db.unregister("places")
    return rows


def _place(row: Record) -> Place:
    return row["match_id"], row["innings"], row["over"], row["delivery"]


def _key(correction: Correction) -> Place:
    innings, over, delivery = (int(correction.place[name]) for name in KEYS[1:])
    return correction.place["match"], innings, over, delivery


def _change(row: Record, correction: Correction) -> str | None:
    field, new = correction.field, correction.new
    if field in ("dismissal", "player_out_id") and len(row["dismissals"]) > 1:
        return "several dismissals fell on it; mend it in the source's file"
    if field == "dismissal" and new and new not in KINDS:
        return f"'{new}' is no kind of dismissal (valid: {', '.join(sorted(KINDS))})"
    if field.endswith("_id") and field != "player_out_id" and not new:
        return f"{field} can't be blank"
    _set(row, correction)
    return None


def _check_dismissals(rows: dict[Place, Record], corrections: list[Correction]) -> None:
    """A dismissal and who was out come and go together."""
    problems = []
    for correction in corrections:
        row = rows[_key(correction)]
        if bool(row["dismissal"]) != bool(row["player_out_id"]):
            message = "dismissal and player_out_id go together; correct both"
            problems.append(correction.problem(f"{correction.where()}: {message}"))
    if problems:
        raise UserError(problems)


def _scored(rows: list[Record]) -> tuple[pa.Table, pa.Table]:
    raw: Record = {}
    for field in RAW:
        values = [row[field.name] for row in rows]
        if isinstance(field.type, pa.DictionaryType):
            codes = Codes()
            raw[field.name] = codes.column([codes[value] for value in values])
        else:
            kind = bool if field.type == pa.bool_() else np.int16
            raw[field.name] = np.array(values, kind)
    wickets = []
    for number, row in enumerate(rows):
        fell = row["dismissals"]
        if len(fell) < 2:
            fell = [(row["dismissal"], row["player_out_id"])] if row["dismissal"] else []
        wickets += [(number, kind, player) for kind, player in fell]
    made = finish(raw, wickets, [], [], set())
    return made.deliveries, made.dismissals
