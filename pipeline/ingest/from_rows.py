"""The layouts with a row a delivery: `delivery-csv`, and `table` with its map of columns."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from pipeline.errors import Problem, UserError
from pipeline.ingest.columns import Tables, finish
from pipeline.ingest.info_csv import InfoFile
from pipeline.ingest.match_blocks import match_blocks
from pipeline.ingest.members import check_there, list_members
from pipeline.ingest.row_beside import INFO, INNINGS, MATCHES, Beside
from pipeline.ingest.row_checks import Checks, numbered
from pipeline.ingest.row_facts import innings_row, is_set, match_row
from pipeline.ingest.row_names import OF_INNINGS, OUTS, RUNS, check_constants, picked
from pipeline.ingest.row_order import Played, check_lengths, check_sides, in_order, in_two_files
from pipeline.ingest.row_people import Beside as Known
from pipeline.ingest.row_people import People, Roles, check_crowds, identified
from pipeline.ingest.text_blocks import Block, constant
from pipeline.ingest.text_reader import Reader

if TYPE_CHECKING:
    from pipeline.config.project import Source


def read_rows(source: Source) -> Iterator[tuple[Tables, list[Problem]]]:
    """The tables of one row-a-delivery source, some matches at a time; in the end what is wrong.

    A match in which something is wrong is left out.
    """
    path = Path(source.path)
    check_there(path)
    check_constants(source)
    names, refused = _listed(path)
    tables = [name for name in names if Path(name).name in (MATCHES, INNINGS)]
    infos = {Path(name).name.removesuffix(INFO): name for name in names if name.endswith(INFO)}
    beside = Beside(path, infos, tables)
    rows = [name for name in names if not name.endswith(INFO) and name not in tables]
    reading = _Reading(source, beside)
    reader = Reader(path, partial(picked, source=source))
    for block in match_blocks(reader, rows, reading.checks.mistakes):
        yield reading.tables(block), []
    problems = [*refused, *reader.problems, *reading.problems()]
    if reader.unread.issuperset(rows):
        raise UserError([*problems, Problem(str(path), "no readable file with deliveries in it")])
    yield _nothing(), problems


def _listed(path: Path) -> tuple[list[str], list[Problem]]:
    if path.suffix == ".parquet":
        return [path.name], []
    return list_members(path, ".csv")


def _nothing() -> Tables:
    none = dict.fromkeys(("match_id", "batting_team", "bowling_team"), constant("", 0).coded())
    none |= dict.fromkeys(("batter_id", "non_striker_id", "bowler_id"), constant("", 0).coded())
    numbers = dict.fromkeys(("innings", "over", "delivery", *RUNS), np.zeros(0, np.int16))
    flags = dict.fromkeys(("non_boundary", "delivered"), np.zeros(0, bool))
    return finish({**none, **numbers, **flags}, [], [], [], set())


@dataclass
class _Reading:
    """The state of reading one source: what is wrong so far, what is known beside the rows."""

    source: Source
    beside: Beside
    checks: Checks = field(init=False)
    repeated: list[Problem] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.checks = Checks(self.source.date_format)

    def problems(self) -> list[Problem]:
        checks = self.checks
        rows = [*checks.mistakes.problems(), *checks.days.problems()]
        return [*self.beside.problems, *rows, *self.repeated]

    def tables(self, block: Block) -> Tables:
        """Some whole matches, without those in which something is wrong."""
        for name, value in {"gender": "unknown", **self.source.constants}.items():
            if name not in block.columns:
                block.columns[name] = constant(value, len(block))
        mistakes = self.checks.mistakes
        played = in_order(block, numbered(block, self.checks)).without(self.checks.left_out)
        check_sides(played, mistakes)
        check_lengths(played, mistakes)
        self.repeated += in_two_files(played, mistakes)
        known = self.beside.of(_names(played))
        played = played.without(self.checks.left_out | self.beside.left_out)
        extra = _super_overs(played, known)
        aside = _counted(played, extra)
        roles = Roles(played := played.take(~extra))
        check_crowds(played, roles, mistakes)
        if (fewer := played.without(mistakes.matches)) is not played:
            roles = Roles(played := fewer)
        return _tables(played, roles, known, aside, self.source)


def _names(played: Played) -> list[str]:
    column = played.block.columns["match_id"]
    return [column.text(row) for row in played.matches.tolist()]


def _super_overs(played: Played, known: dict[str, InfoFile]) -> np.ndarray:
    """Rows of super overs: those marked so; where none is, what comes after two innings.

    ASSUME: a match of limited overs has two innings, so a third is a super over (common practice).
    Where no limit is known, and nothing is marked, nothing is set aside.
    """
    marked: np.ndarray = played.numbers.flags["super_over"].copy()
    limits = played.block.columns.get("overs_limit")
    limited = np.zeros(len(played.matches), bool)
    for place, (match, row) in enumerate(zip(_names(played), played.matches.tolist(), strict=True)):
        beside = known[match]
        given = beside.match.get("overs_limit") or (limits.text(row) if limits else "")
        limited[place] = given.strip().removesuffix(".0") not in ("", "0")
        for number, said in beside.innings.items():
            if is_set(said, "super_over"):
                marked |= (played.match == place) & (played.numbers.innings == number)
    told = np.zeros(len(played.matches), bool)
    told[played.match[marked]] = True
    later = played.numbers.innings > 2
    marked |= later & (limited & ~told)[played.match]
    return marked


def _counted(played: Played, extra: np.ndarray) -> dict[str, int]:
    """How many innings of each match are set aside."""
    rows = np.flatnonzero(extra & played.innings_begins).tolist()
    names = [played.block.columns["match_id"].text(row) for row in rows]
    return {name: names.count(name) for name in names}


def _tables(
    played: Played, roles: Roles, known: dict[str, InfoFile], aside: dict[str, int], source: Source
) -> Tables:
    names, columns, numbers = _names(played), played.block.columns, played.numbers
    cells = [played.block.cells(int(row)) for row in played.matches]
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
    said: dict[str, dict[int, dict[str, str]]] = {name: {} for name in _names(played)}
    for row in played.innings.tolist():
        match, number = columns["match_id"].text(row), int(played.numbers.innings[row])
        cells = {name: columns[name].text(row) for name in given}
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
