"""From the sources' raw tables and the researcher's sheets to the clean tables, in a database."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa

from pipeline.clean import merge, opened, people
from pipeline.clean.corrections import Correction, read_corrections
from pipeline.clean.fix import fix_rows, fix_sheet, of_level
from pipeline.clean.fix_deliveries import fix_deliveries
from pipeline.clean.merges import read_merges, tell_apart
from pipeline.clean.overs import balls_of
from pipeline.clean.sheets import (
    GROUND_COLUMNS,
    GROUND_OPTIONAL,
    PLAYER_COLUMNS,
    Rows,
    grounds_table,
    players_table,
    read_grounds,
    read_players,
)
from pipeline.clean.unread import unread
from pipeline.errors import UserError

View = dict[str, Any]


def assemble(
    db: duckdb.DuckDBPyConnection, view: View, folders: dict[str, Path]
) -> list[Correction]:
    """Put matches, people, sheets and views of what was played into a database; what was corrected.

    `view` names the sheets. The deliveries themselves stay on the disk.

    Raises UserError for a sheet that can't be read and for a fix that no longer applies.
    """
    corrections = read_corrections(view["corrections"])
    sheet, merges = read_players(view["players"]), read_merges(view["people"])
    opened.open_sources(db, folders)
    of_matches = of_level(corrections, "match")
    fix_rows(db, "kept", ("match_id",), of_matches)
    regendered = {each.place["match"] for each in of_matches if each.field == "gender"}
    people.put_met_people(db, folders, regendered)
    tell_apart(db, view["people"], merges, {row["id"] for _, row in sheet})
    people.put_people(db, folders)
    fix_rows(db, "kept_innings", ("match_id", "innings"), of_level(corrections, "innings"))
    _put_sheets(db, view, sheet, corrections)
    _put_targets(db)
    fixed = fix_deliveries(db, of_level(corrections, "delivery", "wicket"))
    opened.put(db, "fixed", fixed.deliveries)
    opened.put(db, "fixed_dismissals", fixed.dismissals)
    opened.put(db, "mended", fixed.mended)
    opened.run(db, merge.TOUCHED, merge.REMADE, merge.CORRECTED, merge.POSITIONS, merge.MATCHES)
    people.take_away(db, fixed.leaving)
    return corrections


def _names(db: duckdb.DuckDBPyConnection, table: str, column: str) -> set[str]:
    return {row[0] for row in db.execute(f"SELECT DISTINCT {column} FROM {table}").fetchall()}


def _put_sheets(
    db: duckdb.DuckDBPyConnection, view: View, sheet: Rows, corrections: list[Correction]
) -> None:
    fixes = of_level(corrections, "player")
    blank, there = dict.fromkeys(PLAYER_COLUMNS, ""), _names(db, "people", "id")
    fixed = fix_sheet([row for _, row in sheet], "id", blank, there, fixes)
    opened.put(db, "players", players_table(fixed))
    opened.put(db, "unread", unread(view["players"], sheet, fixed, fixes, there))
    grounds = [row for _, row in read_grounds(view["grounds"])]
    blank = dict.fromkeys((*GROUND_COLUMNS, *GROUND_OPTIONAL), "")
    plain = [row for row in grounds if not row["venue_city"]]
    apart = [row for row in grounds if row["venue_city"]]
    fixes = of_level(corrections, "ground")
    _check_not_apart(fixes, {row["venue"] for row in apart} - {row["venue"] for row in plain})
    fixed = fix_sheet(plain, "venue", blank, _names(db, "kept", "venue"), fixes)
    opened.put(db, "grounds_given", grounds_table([*fixed, *apart]))
    db.execute("CREATE TABLE grounds AS SELECT *, row_number() OVER () AS row FROM grounds_given")


def _check_not_apart(fixes: list[Correction], apart: set[str]) -> None:
    """A venue with a row for each city of it can't be corrected by its name alone."""
    message = "the grounds' sheet has a row for each city of this venue; mend the row there"
    if wrong := [fix.problem(message) for fix in fixes if fix.place["venue"] in apart]:
        raise UserError(wrong)


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
    opened.put(db, "targets", pa.table(table))
    db.execute(
        "CREATE TABLE reductions AS "
        "SELECT match_id, arg_max(target_balls, innings) AS target_balls, bool_or(reduced) AS "
        "reduced FROM targets GROUP BY match_id"
    )
