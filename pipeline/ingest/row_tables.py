"""Rows that were checked, in the order of play, into the tables of their matches."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from pipeline.ingest.columns import Tables, finish
from pipeline.ingest.info_csv import InfoFile
from pipeline.ingest.number_cells import number_of
from pipeline.ingest.row_facts import innings_row, is_set, match_row
from pipeline.ingest.row_names import MATCH_NUMBERS, MATCH_TEXT, OF_INNINGS, OUTS
from pipeline.ingest.row_order import Played
from pipeline.ingest.row_people import Beside as Known
from pipeline.ingest.row_people import People, Roles, identified

if TYPE_CHECKING:
    from pipeline.config.project import Source


def names_of(played: Played) -> list[str]:
    column = played.block.columns["match_id"]
    return [column.text(row) for row in played.matches.tolist()]


def super_overs(played: Played, known: dict[str, InfoFile]) -> np.ndarray:
    """Rows of super overs: those marked so; where none is, what comes after two innings.

    ASSUME: a match of limited overs has two innings, so a third is a super over (common practice).
    Where no limit is known, and nothing is marked, nothing is set aside.
    """
    marked: np.ndarray = played.numbers.flags["super_over"].copy()
    limits = played.block.columns.get("overs_limit")
    limited = np.zeros(len(played.matches), bool)
    for place, (match, row) in enumerate(
        zip(names_of(played), played.matches.tolist(), strict=True)
    ):
        beside = known[match]
        given = beside.match.get("overs_limit") or (limits.text(row) if limits else "")
        limited[place] = bool(number_of(given))
        for number, said in beside.innings.items():
            if is_set(said, "super_over"):
                marked |= (played.match == place) & (played.numbers.innings == number)
    told = np.zeros(len(played.matches), bool)
    told[played.match[marked]] = True
    later = played.numbers.innings > 2
    marked |= later & (limited & ~told)[played.match]
    return marked


def counted(played: Played, extra: np.ndarray) -> dict[str, int]:
    """How many innings of each match are set aside."""
    rows = np.flatnonzero(extra & played.innings_begins).tolist()
    names = [played.block.columns["match_id"].text(row) for row in rows]
    return {name: names.count(name) for name in names}


def tables_of(
    played: Played, roles: Roles, known: dict[str, InfoFile], aside: dict[str, int], source: Source
) -> Tables:
    names, columns, numbers = names_of(played), played.block.columns, played.numbers
    cells = [played.block.cells(int(row)) for row in played.matches]
    for name in (*MATCH_TEXT, *MATCH_NUMBERS):
        if name in columns:
            for said, row in zip(cells, played.telling(played.matches, name), strict=True):
                said[name] = columns[name].text(int(row))
    everybody = [
        Known(known[name].match.get("gender") or row["gender"], known[name].people)
        for name, row in zip(names, cells, strict=True)
    ]
    people = identified(roles, everybody.__getitem__)
    innings = _innings(played, known)
    targets = {row["match_id"]: row["target_runs"] for row in innings if row["target_runs"]}
    matches = [
        match_row(name, row, known[name], days)
        | {"source": source.id, "super_overs": aside.get(name, 0), "target": targets.get(name)}
        | {"names_on_both_sides": people.shared.get(place)}
        for place, (name, row, days) in enumerate(zip(names, cells, _days(played), strict=True))
    ]
    raw: dict[str, Any] = {
        **{
            name: columns[name].compact().coded()
            for name in ("match_id", "batting_team", "bowling_team")
        },
        "innings": numbers.innings.astype(np.int8),
        "over": numbers.over,
        "delivery": played.deliveries().astype(np.int16),
        **{f"{role}_id": people.columns[role] for role in ("batter", "non_striker", "bowler")},
        **numbers.runs,
        **{name: numbers.flags[name] for name in ("non_boundary", "delivered")},
    }
    return finish(raw, _wickets(played, people), matches, innings, people.found)


def _days(played: Played) -> list[tuple[Any, Any]]:
    """The first and the last day of each match."""
    if not len(played):
        return []
    days = played.numbers.day.astype("datetime64[D]").astype(np.int64)
    ends = [np.minimum.reduceat(days, played.matches), np.maximum.reduceat(days, played.matches)]
    first, last = (end.astype("datetime64[D]").tolist() for end in ends)
    return list(zip(first, last, strict=True))


def _innings(played: Played, known: dict[str, InfoFile]) -> list[dict[str, Any]]:
    """Every innings that has rows, and those beside the rows that have none (forfeited)."""
    columns = played.block.columns
    given = [name for name in ("batting_team", *OF_INNINGS) if name in columns]
    said: dict[str, dict[int, dict[str, str]]] = {name: {} for name in names_of(played)}
    rows = {name: played.telling(played.innings, name).tolist() for name in given}
    for place, row in enumerate(played.innings.tolist()):
        match, number = columns["match_id"].text(row), int(played.numbers.innings[row])
        cells = {name: columns[name].text(rows[name][place]) for name in given}
        said[match][number] = cells | known[match].innings.get(number, {})
    for match, of_match in said.items():
        for number, cells in known[match].innings.items():
            if "batting_team" in cells and not is_set(cells, "super_over"):
                of_match.setdefault(number, cells)
    return [
        innings_row(match, number, cells)
        for match, of_match in said.items()
        for number, cells in sorted(of_match.items())
    ]


def _wickets(played: Played, people: People) -> list[tuple[int, str, str]]:
    """Dismissals as (row, kind, player out): of one ball in the order of the columns."""
    found = []
    for place, (kind, player) in enumerate(OUTS.items()):
        column = played.block.columns.get(kind)
        if column is not None and player in people.columns:
            rows = np.flatnonzero(column.having(bool))
            ids = people.columns[player]
            found += [(r, place, column.text(r), ids[r].as_py()) for r in rows.tolist()]
    return [(row, kind, player) for row, _, kind, player in sorted(found)]
