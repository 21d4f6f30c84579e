"""Running a topic's queries and keeping what they were."""

from __future__ import annotations

from typing import Any

import duckdb
import numpy as np
import pyarrow as pa
import pyarrow.compute as pc

from pipeline.config.cuts import CUTS, leant_on
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.metrics.holdings import describe, touching
from pipeline.metrics.query import UNKNOWN, BeatQuery, beat_query, cut_sql, data_filter
from pipeline.metrics.windows import Season, choose_windows
from pipeline.sql import quoted
from pipeline.tables import TALLIES
from pipeline.wording.labels import slug


def tally(
    view: dict[str, Any], deliveries: str, matches: str, corrections: list[dict[str, Any]]
) -> tuple[pa.Table, dict[str, Any]]:
    """All tallies of a topic, and the selection: windows, cells, queries, what the data hold.

    `corrections` are all that were applied; the selection keeps those that touch the topic's balls.
    """
    db = duckdb.connect()
    chosen = _chosen_matches(db, view, matches)
    _check_filters(db, view, deliveries, chosen)
    _check_sides(db, view, chosen)
    seasons = _seasons(db, chosen)
    windows = choose_windows(seasons, view["event"], view["file"]) if view["event"] else None
    parts, beats = [], {}
    for beat in view["beats"]:
        query = beat_query(beat, view, windows, (deliveries, matches))
        wide = db.sql(query.text).to_arrow_table()
        if not wide.num_rows:
            message = f"beat '{beat['id']}': its filters leave no balls; widen 'where'"
            raise UserError(Problem(view["file"], message))
        wide, cells = _with_cells(wide, query, view["format"])
        _check_cells(cells, beat["id"], view["file"])
        parts += [_long(wide, beat["id"], i, name) for i, name in enumerate(query.measures)]
        beats[beat["id"]] = {"query": query.text, "cells": cells}
    selection = {
        "data": describe(db, deliveries, chosen, leant_on(view["beats"])),
        "corrections": touching(db, corrections, deliveries, chosen),
        "seasons": [season.label for season in seasons],
        "season_ends": [[s.label, str(s.first), str(s.last), s.matches] for s in seasons],
        "windows": windows.__dict__ if windows else None,
        "beats": beats,
    }
    return pa.concat_tables(parts).cast(TALLIES), selection


def _chosen_matches(db: duckdb.DuckDBPyConnection, view: dict[str, Any], matches: str) -> str:
    """The topic's matches as a subquery; leaving none is an error that says what there is."""
    conditions = data_filter(view["data"], view["format"])
    source = f"read_parquet({quoted(matches)}) m"
    chosen = f"(SELECT * FROM {source} WHERE {' AND '.join(conditions)})"
    if db.execute(f"SELECT count(*) FROM {chosen}").fetchall()[0][0]:
        return chosen
    for key in ("competition", "gender", "team_type", "source"):
        asked = view["data"].get(key)
        there = _distinct(db, f"m.{key}", source)
        for value in asked if isinstance(asked, list) else [asked] if asked else []:
            if value not in there:
                message = f"the topic's filters leave no matches: {key} '{value}' isn't in the data"
                raise UserError(Problem(view["file"], f"{message}; it has: {', '.join(there)}"))
    types = ", ".join(_distinct(db, "m.match_type", source))
    wanted = ", ".join(view["format"]["match_types"])
    message = (
        f"the topic's filters leave no matches: the format asks for match type {wanted} with "
        f"{view['format']['balls_per_over']} balls an over; the data have {types}"
    )
    raise UserError(Problem(view["file"], message))


def _distinct(db: duckdb.DuckDBPyConnection, expression: str, source: str) -> list[str]:
    rows = db.execute(f"SELECT DISTINCT {expression}::VARCHAR AS v FROM {source} ORDER BY v")
    return [value for (value,) in rows.fetchall() if value is not None]


def _check_filters(
    db: duckdb.DuckDBPyConnection, view: dict[str, Any], deliveries: str, chosen: str
) -> None:
    """Values of open cuts (grounds, teams, seasons) must occur in the topic's data."""
    problems = []
    source = f"read_parquet({quoted(deliveries)}) d JOIN {chosen} m USING (match_id)"
    for beat in view["beats"]:
        asked = {**beat["where"], **beat.get("between", {}), **beat.get("of", {})}
        for cut, values in asked.items():
            if cut == "overs" or not values or CUTS[cut].values or cut == "phase":
                continue
            place = source if CUTS[cut].sql.startswith("d.") else f"{chosen} m"
            there = _distinct(db, cut_sql(cut, view["format"]), place)
            for value in values:
                if value not in there:
                    message = f"beat '{beat['id']}': {CUTS[cut].name} '{value}' isn't in the data"
                    hint = did_you_mean(value, there)
                    problems.append(Problem(view["file"], f"{message}{hint}"))
    if problems:
        raise UserError(problems)


def _check_sides(db: duckdb.DuckDBPyConnection, view: dict[str, Any], chosen: str) -> None:
    """Women's and men's sides bear one name: cut by side, they would be added together unseen."""
    sides = {"batting_team", "bowling_team"}
    asked = [
        beat["id"]
        for beat in view["beats"]
        if sides & {*beat.get("by", []), *beat.get("between", {})}
        or any(beat["where"].get(side) for side in sides)
    ]
    if asked and len(there := _distinct(db, "m.gender", f"{chosen} m")) > 1:
        message = (
            f"beat '{asked[0]}' divides by side, and the data hold {' and '.join(there)} cricket"
        )
        raise UserError(
            Problem(view["file"], f"{message}: set data.gender, since sides share names")
        )


def _seasons(db: duckdb.DuckDBPyConnection, chosen: str) -> list[Season]:
    rows = db.execute(
        f"SELECT season, min(date), max(date), count(*) FROM {chosen} GROUP BY season ORDER BY 2, 1"
    ).fetchall()
    return [Season(*row) for row in rows]


def _with_cells(
    wide: pa.Table, query: BeatQuery, form: dict[str, Any]
) -> tuple[pa.Table, list[dict[str, Any]]]:
    """Name each row's cell; list the cells in the order they are told (closed cuts, then A-Z)."""
    if not query.cuts:
        return wide.append_column("cell", pa.array(["all"] * wide.num_rows)), [_overall()]
    combined, seen = _combined(wide, query.cuts)
    ordered = sorted(set(seen) - {None}, key=lambda parts: _order(parts, query.cuts, form))
    cells = [_overall()] + [
        {
            "id": _cell_id(parts),
            "values": dict(zip(query.cuts, parts, strict=True)),
            "known": UNKNOWN not in parts,
        }
        for parts in ordered
    ]
    names = pa.array(["all" if parts is None else _cell_id(parts) for parts in seen], pa.string())
    return wide.append_column("cell", names.take(pa.array(combined))), cells


def _cell_id(parts: tuple[str, ...]) -> str:
    return "-".join(slug(part) for part in parts)


def _combined(wide: pa.Table, cuts: list[str]) -> tuple[np.ndarray, list[tuple[str, ...] | None]]:
    """Each row's combination of values as a number, and what the numbers stand for.

    None stands for the row of all balls. Only the few combinations are ever handled one by one.
    """
    codes = np.zeros(wide.num_rows, np.int64)
    for cut in cuts:
        column = wide[cut].combine_chunks().dictionary_encode(null_encoding="encode")
        values = column.dictionary.to_pylist()
        codes = codes * len(values) + column.indices.to_numpy()
    overall = wide["overall"].to_numpy() != 0
    codes[overall] = -1
    _, first, combined = np.unique(codes, return_index=True, return_inverse=True)
    parts = [tuple(str(wide[cut][int(row)].as_py()) for cut in cuts) for row in first]
    return combined, [
        None if overall[row] else each for row, each in zip(first, parts, strict=True)
    ]


def _check_cells(cells: list[dict[str, Any]], beat: str, file: str) -> None:
    """Two values that make one id would be added together unseen; that is an error."""
    seen: dict[str, str] = {}
    for cell in cells:
        name = ", ".join(cell["values"].values())
        if cell["id"] in seen:
            message = (
                f"beat '{beat}': '{name}' and '{seen[cell['id']]}' make one id, '{cell['id']}'"
            )
            raise UserError(Problem(file, f"{message}; give one of them another name in the data"))
        seen[cell["id"]] = name


def _overall() -> dict[str, Any]:
    return {"id": "all", "values": {}, "known": True}


def _order(parts: tuple[str, ...], cuts: list[str], form: dict[str, Any]) -> list[tuple[int, str]]:
    keys = []
    for part, cut in zip(parts, cuts, strict=True):
        listed = list(form["phases"]) if cut == "phase" else list(CUTS[cut].values)
        keys.append((listed.index(part) if part in listed else len(listed), str(part)))
    return keys


def _long(wide: pa.Table, beat: str, index: int, measure: str) -> pa.Table:
    count = wide.num_rows
    columns = {
        "beat": pa.array([beat] * count),
        "measure": pa.array([measure] * count),
        **{name: wide[name] for name in ("cell", "window", "match_id", "season", "date", "ground")},
        "y": pc.cast(wide[f"y{index}"], pa.int64()),
        "x": pc.cast(wide[f"x{index}"], pa.int64()),
        "balls": wide["balls"],
    }
    return pa.table(columns).cast(TALLIES)
