"""The layouts with a row a delivery: `delivery-csv`, and `table` with its map of columns."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import numpy as np

from pipeline.errors import Problem, UserError
from pipeline.ingest.columns import Tables, finish
from pipeline.ingest.match_blocks import match_blocks, matches_in
from pipeline.ingest.members import check_there, is_parquet, list_members
from pipeline.ingest.oddities import named
from pipeline.ingest.row_beside import INFO, INNINGS, MATCHES, Beside
from pipeline.ingest.row_checks import Checks, numbered
from pipeline.ingest.row_forms import in_our_forms
from pipeline.ingest.row_names import RUNS, check_constants, picked, strays
from pipeline.ingest.row_order import (
    check_beside,
    check_counted,
    check_lengths,
    check_sides,
    check_super_overs,
    check_twice,
    in_order,
    in_two_files,
)
from pipeline.ingest.row_people import Roles, check_crowds
from pipeline.ingest.row_repeats import told_once
from pipeline.ingest.row_spool import spooled
from pipeline.ingest.row_tables import counted, names_of, super_overs, tables_of
from pipeline.ingest.text_blocks import Block, constant
from pipeline.ingest.text_reader import Reader

if TYPE_CHECKING:
    from pipeline.config.project import Source


def read_rows(source: Source) -> Iterator[tuple[Tables, list[Problem], Counter[str]]]:
    """The tables of one row-a-delivery source, some matches at a time; in the end what is wrong.

    With that, columns and keys that the layout does not have, which are passed over. A match in
    which something is wrong is left out.
    """
    check_there(Path(source.path))
    check_constants(source)
    with TemporaryDirectory(prefix="good-length-") as folder:
        path, refused = spooled(source, Path(folder))
        yield from _read(source, path, refused)


def _read(
    source: Source, path: Path, refused: list[Problem]
) -> Iterator[tuple[Tables, list[Problem], Counter[str]]]:
    """The same of where the rows are to be read; they are named by the source's own files."""
    names, more = _listed(path)
    own = Path(source.path) if Path(source.path) != path else None
    alone = names == [path.name] and path.is_file()  # a source of one file, whatever it is called
    tables = [name for name in names if Path(name).name.lower() in (MATCHES, INNINGS) and not alone]
    infos = [name for name in names if name.lower().endswith(INFO) and not alone]
    beside = {*infos, *tables}
    rows = [name for name in names if name not in beside]
    reading = _Reading(source, Beside(path, infos, tables, own))
    reader = Reader(path, partial(picked, source=source), own, source.constants)
    given = 0
    for block in match_blocks(reader, rows, reading.checks.mistakes, f"ingest {source.id}"):
        found = reading.tables(block)
        if found.matches.num_rows:
            given += 1
            yield found, [], Counter()
    problems = [*refused, *more, *reader.problems, *reading.problems()]
    if reader.unread.issuperset(rows):
        raise UserError([*problems, Problem(source.path, "no readable file with deliveries in it")])
    if not problems and not given:
        problems = [Problem(source.path, "no delivery in it: its files have a header and no rows")]
    passed_over = strays(reader.headers.values(), source) + reading.beside.strays
    last = _nothing()
    last.odd = {
        "told_of_without_deliveries": named(reading.beside.never_met(reader.unread)),
        "files_without_deliveries": named(reader.without_rows()),
    }
    if problems or passed_over or any(odd.count for odd in last.odd.values()):
        yield last, problems, passed_over


def _listed(path: Path) -> tuple[list[str], list[Problem]]:
    if is_parquet(path.name):
        return [path.name], []
    return list_members(path, ".csv")


def _nothing() -> Tables:
    none = dict.fromkeys(
        ("match_id", "batting_team", "bowling_team"), constant("", 0).compact().coded()
    )
    none |= dict.fromkeys(
        ("batter_id", "non_striker_id", "bowler_id"), constant("", 0).compact().coded()
    )
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
        self.checks = Checks(self.source.date_format, self.source.layout == "table")

    def problems(self) -> list[Problem]:
        checks = self.checks
        rows = [*checks.mistakes.problems(), *checks.days.problems()]
        return [*self.beside.problems, *rows, *self.repeated]

    def _in_our_forms(self, block: Block) -> Block:
        """Rows of a foreign table as ours are written, a row a delivery."""
        source, mistakes = self.source, self.checks.mistakes
        found = in_our_forms(block, source.written, source.date_format, mistakes)
        return told_once(found, mistakes)

    def tables(self, block: Block) -> Tables:
        """Some whole matches, without those in which something is wrong."""
        if self.source.layout == "table":
            block = self._in_our_forms(block)
        self.beside.met |= matches_in(block)
        gender = block.columns.get("gender") or constant("", len(block))
        block.columns["gender"] = gender.turned(lambda text: text.strip().lower() or "unknown")
        mistakes = self.checks.mistakes
        played = in_order(block, numbered(block, self.checks)).without(self.checks.left_out)
        check_sides(played, mistakes)
        check_lengths(played, mistakes)
        check_super_overs(played, mistakes)
        check_twice(played, mistakes)
        self.repeated += in_two_files(played, mistakes)
        known = self.beside.of(names_of(played))
        check_beside(played, [known[name].innings for name in names_of(played)], mistakes)
        played = played.without(self.checks.left_out | self.beside.left_out)
        extra = super_overs(played, known)
        check_counted(played, extra, mistakes)
        aside = counted(played, extra)
        roles = Roles(played := played.take(~extra))
        check_crowds(played, roles, mistakes)
        if (fewer := played.without(mistakes.matches)) is not played:
            roles = Roles(played := fewer)
        return tables_of(played, roles, known, aside, self.source)
