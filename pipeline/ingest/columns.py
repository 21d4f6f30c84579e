"""Recorded columns into one source's tables: what the Laws add, and who took which wicket."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from pipeline import tables
from pipeline.contracts.quality import OddPlay
from pipeline.ingest.laws import CREDITED, NOT_OUT, score
from pipeline.ingest.oddities import oddities

STREAMED = ("deliveries", "dismissals", "matches", "innings")  # in chunks; people once each
EXTRAS = ("wides", "noballs", "byes", "legbyes", "penalty")
SCORED = ("runs_batter", *EXTRAS, "non_boundary", "delivered")  # what the Laws are asked of


class Codes(dict[str, int]):
    """Text to small numbers, in order of first sight."""

    def __missing__(self, text: str) -> int:
        self[text] = code = len(self)
        return code

    def column(self, codes: Any) -> pa.DictionaryArray:
        values = pa.array(list(self), pa.string())
        return pa.DictionaryArray.from_arrays(pa.array(codes, pa.int32()), values)


class Person(NamedTuple):
    """One person as one file writes them; `registered` when the file itself gives the id."""

    id: str
    name: str
    gender: str
    team: str
    registered: bool


def without_id(name: str, team: str) -> str:
    """The id of somebody whose file gives none: name and side, which are always known.

    Namesakes of one side, a woman and a man, are told apart when all sources are merged.
    """
    return f"{name} ({team})"


@dataclass
class Tables:
    """One chunk's (or one source's) tables, of the schemas in pipeline.tables."""

    deliveries: pa.Table
    dismissals: pa.Table
    matches: pa.Table
    innings: pa.Table
    people: pa.Table
    odd: dict[str, OddPlay] = field(default_factory=dict)


def finish(
    raw: dict[str, Any],
    wickets: list[tuple[int, str, str]],
    matches: list[dict[str, Any]],
    innings: list[dict[str, Any]],
    people: set[Person],
) -> Tables:
    """Add what the Laws make of the recorded columns; `wickets` are (row, kind, player out).

    Where `matches` are given, the rows are all of theirs, in the order of play.
    """
    scored = score(**{name: raw[name] for name in SCORED})
    columns = {**raw, **scored.__dict__, **_wicket_columns(wickets, len(raw["delivered"]))}
    return Tables(
        deliveries=_typed(columns, tables.DELIVERIES),
        dismissals=_dismissals(columns, wickets),
        matches=pa.Table.from_pylist(matches, tables.MATCHES),
        innings=pa.Table.from_pylist(innings, tables.INNINGS),
        people=people_table(people),
        odd=oddities(columns, wickets, matches, innings) if matches else {},
    )


def people_table(people: set[Person]) -> pa.Table:
    """People in the order of their ids, names and sides."""
    columns = zip(*sorted(people), strict=True) if people else [()] * len(tables.PEOPLE)
    kinds = tables.PEOPLE.types
    arrays = [pa.array(values, kind) for values, kind in zip(columns, kinds, strict=True)]
    return pa.Table.from_arrays(arrays, schema=tables.PEOPLE)


def merged_people(files: Iterable[Path]) -> pa.Table:
    """The people of several tables of them, each once, in the same order."""
    found = pa.concat_tables([pq.read_table(file) for file in files])
    names = tables.PEOPLE.names
    return found.group_by(names).aggregate([]).sort_by([(name, "ascending") for name in names])


def _typed(columns: dict[str, Any], schema: pa.Schema) -> pa.Table:
    arrays = [
        column if isinstance(column := columns[name], pa.Array) else pa.array(column)
        for name in schema.names
    ]
    return pa.table(arrays, names=schema.names).cast(schema)


def _wicket_columns(wickets: list[tuple[int, str, str]], length: int) -> dict[str, Any]:
    """Wickets by delivery; the dismissal named is the first that is out."""
    out = [wicket for wicket in wickets if wicket[1] not in NOT_OUT]
    rows = [row for row, _, _ in out]
    credited = [row for row, kind, _ in out if kind in CREDITED]
    first = {row: (kind, player) for row, kind, player in reversed(out)}
    kinds, players = zip(*first.values(), strict=True) if first else ((), ())
    return {
        "wickets": np.bincount(rows, minlength=length).astype(np.int16),
        "bowler_wickets": np.bincount(credited, minlength=length).astype(np.int16),
        "dismissal": _sparse(list(first), kinds, length),
        "player_out_id": _sparse(list(first), players, length),
    }


def _sparse(rows: list[int], texts: tuple[str, ...], length: int) -> pa.DictionaryArray:
    """A coded column that holds text in some rows and nothing in the others."""
    codes, at = Codes(), np.full(length, -1, np.int32)
    at[rows] = [codes[text] for text in texts]
    return codes.column(pa.array(at, mask=at < 0))


def _dismissals(columns: dict[str, Any], wickets: list[tuple[int, str, str]]) -> pa.Table:
    rows, kinds, players = zip(*wickets, strict=True) if wickets else ((), (), ())
    place = np.array(rows, np.int64)
    return pa.table(
        {
            "match_id": columns["match_id"].take(pa.array(place)).cast(pa.string()),
            **{name: np.asarray(columns[name])[place] for name in ("innings", "over", "delivery")},
            "kind": pa.array(kinds, pa.string()),
            "player_out_id": pa.array(players, pa.string()),
            "out": [kind not in NOT_OUT for kind in kinds],
            "bowler_credited": [kind in CREDITED for kind in kinds],
        }
    ).cast(tables.DISMISSALS)
