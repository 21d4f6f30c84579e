"""From the sources' raw tables and the researcher's sheets to the clean tables, in a database."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa

from pipeline.clean import merge
from pipeline.clean.corrections import Correction, read_corrections
from pipeline.clean.fix import fix_deliveries, fix_rows, fix_sheet, of_level
from pipeline.clean.overs import balls_of
from pipeline.clean.sheets import (
    GROUND_COLUMNS,
    PLAYER_COLUMNS,
    Rows,
    grounds_table,
    players_table,
    read_grounds,
    read_merges,
    read_players,
)
from pipeline.errors import Problem, UserError

View = dict[str, Any]


def assemble(
    db: duckdb.DuckDBPyConnection, view: View, folders: dict[str, Path]
) -> list[Correction]:
    """Put matches, people, sheets and views of what was played into a database; what was corrected.

    `view` names the sheets. The deliveries themselves stay on the disk.

    Raises UserError for a sheet that can't be read and for a fix that no longer applies.
    """
    corrections = read_corrections(view["corrections"])
    merges = read_merges(view["people"])
    rows = [row for _, row in merges]
    texts = {name: [row[name] for row in rows] for name in ("id", "same_as")}
    merge.open_sources(db, folders, pa.table(texts, pa.schema([(n, pa.string()) for n in texts])))
    _check_merges(db, view["people"], merges)
    fix_rows(db, "kept", ("match_id",), of_level(corrections, "match"))
    fix_rows(db, "kept_innings", ("match_id", "innings"), of_level(corrections, "innings"))
    _put_sheets(db, view, corrections)
    _put_targets(db)
    of_balls = of_level(corrections, "delivery")
    fixed, dismissals = fix_deliveries(db, of_balls)
    merge.put(db, "fixed", fixed)
    merge.put(db, "fixed_dismissals", dismissals)
    touched = sorted({correction.place["match"] for correction in of_balls})
    merge.put(db, "touched", pa.table({"match_id": pa.array(touched, pa.string())}))
    merge.run(db, merge.MENDED, merge.CORRECTED, merge.POSITIONS, merge.MATCHES)
    return corrections


def _check_merges(db: duckdb.DuckDBPyConnection, file: str | None, merges: Rows) -> None:
    """An id that is nobody's is a slip of the pen, or a merge that no longer applies."""
    there = _names(db, "raw_people", "id")
    problems = [
        Problem(str(file), f"nobody in the data has the id '{row['id']}'; drop the line", line, 1)
        for line, row in merges
        if row["id"] not in there
    ]
    if problems:
        raise UserError(problems)


def _names(db: duckdb.DuckDBPyConnection, table: str, column: str) -> set[str]:
    return {row[0] for row in db.execute(f"SELECT DISTINCT {column} FROM {table}").fetchall()}


def _put_sheets(db: duckdb.DuckDBPyConnection, view: View, corrections: list[Correction]) -> None:
    players = [row for _, row in read_players(view["players"])]
    blank = dict.fromkeys(PLAYER_COLUMNS, "")
    fixed = fix_sheet(
        players, "id", blank, _names(db, "people", "id"), of_level(corrections, "player")
    )
    merge.put(db, "players", players_table(fixed))
    grounds = [row for _, row in read_grounds(view["grounds"])]
    blank = dict.fromkeys((*GROUND_COLUMNS, "venue_city", "home"), "")
    plain = [row for row in grounds if not row["venue_city"]]
    fixed = fix_sheet(
        plain, "venue", blank, _names(db, "kept", "venue"), of_level(corrections, "ground")
    )
    merge.put(db, "grounds_given", grounds_table([*fixed, *(r for r in grounds if r not in plain)]))
    db.execute("CREATE TABLE grounds AS SELECT *, row_number() OVER () AS row FROM grounds_given")


def _put_targets(db: duckdb.DuckDBPyConnection) -> None:
    """Reduced targets. A first innings' own limit is in no file, so it is never known."""
    rows = db.sql(
        "SELECT i.match_id, i.innings, i.target_overs, k.overs_limit, k.balls_per_over "
        "FROM kept_innings i JOIN kept k USING (match_id) WHERE i.target_overs IS NOT NULL "
        "ORDER BY i.match_id, i.innings"
    ).to_arrow_table()
    found = rows.to_pylist()
    balls = [balls_of(row["target_overs"], row["balls_per_over"]) for row in found]
    limits = [(row["overs_limit"] or 0) * row["balls_per_over"] for row in found]
    reduced = [
        None if not limit or count is None else count < limit
        for count, limit in zip(balls, limits, strict=True)
    ]
    table = {
        "match_id": pa.array([row["match_id"] for row in found], pa.string()),
        "innings": pa.array([row["innings"] for row in found], pa.int8()),
        "target_balls": pa.array(balls, pa.int32()),
        "reduced": pa.array(reduced, pa.bool_()),
    }
    merge.put(db, "targets", pa.table(table))
    db.execute(
        "CREATE TABLE reductions AS "
        "SELECT match_id, arg_max(target_balls, innings) AS target_balls, bool_or(reduced) AS "
        "reduced FROM targets GROUP BY match_id"
    )
