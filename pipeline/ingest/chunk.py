"""Gathering many matches into columns: what every layout's reader writes into."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pyarrow as pa

from pipeline import tables
from pipeline.ingest.laws import CREDITED, NOT_OUT, score


class BadMatch(Exception):
    """A match that cannot be used: the place in it, and why."""


class Codes(dict):
    """Text to small numbers, in order of first sight."""

    def __missing__(self, text: str) -> int:
        self[text] = code = len(self)
        return code

    def column(self, codes: Any) -> pa.DictionaryArray:
        values = pa.array(list(self), pa.string())
        return pa.DictionaryArray.from_arrays(pa.array(codes, pa.int32()), values)


@dataclass
class Tables:
    """One chunk's (or one source's) tables, of the schemas in pipeline.tables."""

    deliveries: pa.Table
    dismissals: pa.Table
    matches: pa.Table
    innings: pa.Table
    people: pa.Table


@dataclass
class Chunk:
    """Columns under construction. Dense values are appended; extras and wickets stay sparse."""

    ids: Codes = field(default_factory=Codes)
    people: Codes = field(default_factory=Codes)
    teams: Codes = field(default_factory=Codes)
    names: dict[str, str] = field(default_factory=dict)
    lengths: list[tuple[int, int, int, int, int]] = field(default_factory=list)
    overs: list[tuple[int, int]] = field(default_factory=list)
    batter: list[int] = field(default_factory=list)
    non_striker: list[int] = field(default_factory=list)
    bowler: list[int] = field(default_factory=list)
    runs_batter: list[int] = field(default_factory=list)
    extras: list[tuple[int, int, int, int, int, int]] = field(default_factory=list)
    non_boundary: list[int] = field(default_factory=list)
    undelivered: list[int] = field(default_factory=list)
    wickets: list[tuple[int, str, str]] = field(default_factory=list)
    matches: list[dict[str, Any]] = field(default_factory=list)
    innings: list[dict[str, Any]] = field(default_factory=list)

    @property
    def rows(self) -> int:
        return len(self.runs_batter)

    def tables(self) -> Tables:
        """Everything gathered so far, with the columns that the Laws add."""
        return finish(self._raw(), self.wickets, self.matches, self.innings, self.names)

    def _raw(self) -> dict[str, Any]:
        lengths = np.array(self.lengths, np.int32).reshape(-1, 5)
        match, innings, batting, bowling, count = lengths.T
        over_number, over_length = np.array(self.overs, np.int32).reshape(-1, 2).T
        starts = np.cumsum(over_length, dtype=np.int64) - over_length
        raw: dict[str, Any] = {
            "match_id": self.ids.column(np.repeat(match, count)),
            "innings": np.repeat(innings, count),
            "over": np.repeat(over_number, over_length),
            "delivery": np.arange(self.rows) - np.repeat(starts, over_length) + 1,
            "batter_id": self.people.column(self.batter),
            "non_striker_id": self.people.column(self.non_striker),
            "bowler_id": self.people.column(self.bowler),
            "batting_team": self.teams.column(np.repeat(batting, count)),
            "bowling_team": self.teams.column(np.repeat(bowling, count)),
            "runs_batter": np.array(self.runs_batter, np.int16),
        }
        extras = np.array(self.extras, np.int64).reshape(-1, 6).T
        for name, part in zip(
            ("wides", "noballs", "byes", "legbyes", "penalty"), extras[1:], strict=True
        ):
            raw[name] = _scatter(extras[0], part, self.rows)
        raw["non_boundary"] = _flags(self.non_boundary, self.rows)
        raw["delivered"] = ~_flags(self.undelivered, self.rows)
        return raw


def _scatter(rows: np.ndarray, values: np.ndarray, length: int) -> np.ndarray:
    column = np.zeros(length, np.int16)
    column[rows] = values
    return column


def _flags(rows: list[int], length: int) -> np.ndarray:
    column = np.zeros(length, bool)
    column[rows] = True
    return column


def finish(
    raw: dict[str, Any],
    wickets: list[tuple[int, str, str]],
    matches: list[dict[str, Any]],
    innings: list[dict[str, Any]],
    names: dict[str, str],
) -> Tables:
    """Add what the Laws make of the recorded columns; `wickets` are (row, kind, player out)."""
    scored = score(
        *(raw[name] for name in ("runs_batter", "wides", "noballs", "byes", "legbyes", "penalty")),
        raw["non_boundary"],
        raw["delivered"],
    )
    columns = {**raw, **scored.__dict__, **_wicket_columns(wickets, len(raw["delivered"]))}
    return Tables(
        deliveries=_typed(columns, tables.DELIVERIES),
        dismissals=_dismissals(columns, wickets),
        matches=pa.Table.from_pylist(matches, tables.MATCHES),
        innings=pa.Table.from_pylist(innings, tables.INNINGS),
        people=pa.table({"id": list(names), "name": list(names.values())}, tables.PEOPLE),
    )


def _typed(columns: dict[str, Any], schema: pa.Schema) -> pa.Table:
    arrays = [
        column if isinstance(column := columns[name], pa.Array) else pa.array(column)
        for name in schema.names
    ]
    return pa.table(arrays, names=schema.names).cast(schema)


def _wicket_columns(wickets: list[tuple[int, str, str]], length: int) -> dict[str, Any]:
    """Wickets by delivery; the dismissal named is the first that is out."""
    fallen, credited = np.zeros(length, np.int16), np.zeros(length, np.int16)
    kinds, players = Codes(), Codes()
    kind_of = np.full(length, -1, np.int32)
    player_of = np.full(length, -1, np.int32)
    for row, kind, player in wickets:
        if kind in NOT_OUT:
            continue
        if not fallen[row]:
            kind_of[row], player_of[row] = kinds[kind], players[player]
        fallen[row] += 1
        credited[row] += kind in CREDITED
    return {
        "wickets": fallen,
        "bowler_wickets": credited,
        "dismissal": kinds.column(pa.array(kind_of, mask=kind_of < 0)),
        "player_out_id": players.column(pa.array(player_of, mask=player_of < 0)),
    }


def _dismissals(columns: dict[str, Any], wickets: list[tuple[int, str, str]]) -> pa.Table:
    rows = [row for row, _, _ in wickets]
    kinds = [kind for _, kind, _ in wickets]
    match_ids = columns["match_id"].take(pa.array(rows, pa.int64())).cast(pa.string())
    return pa.table(
        {
            "match_id": match_ids,
            "innings": np.asarray(columns["innings"])[rows],
            "over": np.asarray(columns["over"])[rows],
            "delivery": np.asarray(columns["delivery"])[rows],
            "kind": kinds,
            "player_out_id": [player for _, _, player in wickets],
            "out": [kind not in NOT_OUT for kind in kinds],
            "bowler_credited": [kind in CREDITED for kind in kinds],
        }
    ).cast(tables.DISMISSALS)
