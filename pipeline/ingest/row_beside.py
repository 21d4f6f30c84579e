"""What stands beside the rows: an info file for each match, tables of the matches and innings."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from pipeline.errors import Problem, UserError
from pipeline.ingest.info_csv import InfoFile, parse_info
from pipeline.ingest.limits import MOST_INNINGS
from pipeline.ingest.members import file_of, read_members
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.number_cells import number_of
from pipeline.ingest.other_forms import not_apart
from pipeline.ingest.row_names import (
    INNINGS_FLAGS,
    INNINGS_NUMBERS,
    MATCH_NUMBERS,
    MATCH_TEXT,
    OF_INNINGS,
)
from pipeline.ingest.text_blocks import Block
from pipeline.ingest.text_checks import check_numbers, check_present, flag, number
from pipeline.ingest.text_reader import Reader

INFO = "_info.csv"
MATCHES, INNINGS = "matches.csv", "innings.csv"
COLUMNS = {
    MATCHES: ("match_id", *MATCH_TEXT, *MATCH_NUMBERS),
    INNINGS: ("match_id", "innings", "batting_team", *OF_INNINGS),
}
KEYS = {MATCHES: ("match_id",), INNINGS: ("match_id", "innings")}
NOTHING = InfoFile({}, {}, {})


@dataclass
class Beside:
    """What is known of matches apart from their rows; info files are read as they are asked for."""

    path: Path
    infos: list[str]  # names of info files
    tables: list[str]  # names of tables beside the rows
    own: Path | None = None  # the source's path where `path` has a copy of its files
    problems: list[Problem] = field(default_factory=list)
    left_out: set[str] = field(default_factory=set)  # matches of which something can't be read
    met: set[str] = field(default_factory=set)  # matches of which rows were met

    def __post_init__(self) -> None:
        self.strays: Counter[str] = Counter()  # keys of info files that the layout does not have
        self._matches: dict[str, dict[str, str]] = {}
        self._innings: dict[str, dict[int, dict[str, str]]] = {}
        self._seen: defaultdict[str, set[tuple[str, int | None]]] = defaultdict(set)
        self._info_of: dict[str, str] = {}
        for name in self.infos:
            self._known_by(name)
        for name in self.tables:
            self._read_table(name)

    def _known_by(self, name: str) -> None:
        """The match of an info file; one that another tells of too is left out."""
        match = Path(name).name[: -len(INFO)]
        if (other := self._info_of.setdefault(match, name)) != name:
            message = f"match {match} has {self._file_of(other)} too; keep one of the two"
            self.problems.append(Problem(self._file_of(name), message))
            self.left_out.add(match)

    def _file_of(self, name: str) -> str:
        return file_of(self.own or self.path, name)

    def of(self, matches: Iterable[str]) -> dict[str, InfoFile]:
        """What is known of some matches; what an info file says goes before a table."""
        wanted = {self._info_of[match]: match for match in matches if match in self._info_of}
        found = {}
        for name, data in read_members(self.path, list(wanted)) if wanted else ():
            match, file = wanted[name], self._file_of(name)
            try:
                if isinstance(data, str):
                    raise UserError(Problem(file, data))
                found[match] = parse_info(data, file)
                self.strays.update(found[match].strays)
            except UserError as error:
                self.problems += error.problems
                self.left_out.add(match)
        return {match: self._merged(match, found.get(match, NOTHING)) for match in matches}

    def never_met(self, unread: Iterable[str]) -> set[str]:
        """Matches that something is told of, and no row is of; but for files that are `unread`."""
        told = {*self._info_of, *self._matches, *self._innings}
        return told - self.met - self.left_out - {Path(name).stem for name in unread}

    def _merged(self, match: str, info: InfoFile) -> InfoFile:
        facts = {**self._matches.get(match, {}), **info.match}
        innings = {place: dict(said) for place, said in self._innings.get(match, {}).items()}
        for place, said in info.innings.items():
            innings.setdefault(place, {}).update(said)
        return InfoFile(facts, info.people, innings)

    def _read_table(self, name: str) -> None:
        kind = Path(name).name.lower()
        reader = Reader(self.path, lambda header, file: _picked(header, file, kind), self.own)
        mistakes, seen = Mistakes(), self._seen[kind]
        for block in reader.blocks([name]):
            _check(block, kind, mistakes)
            rows = [block.cells(row) for row in range(len(block))]
            keys = [(row["match_id"], number_of(row.get("innings", ""))) for row in rows]
            counts = Counter(keys)
            twice = [counts[key] > 1 or key in seen for key in keys]
            seen |= set(keys)
            mistakes.add(block, np.array(twice, bool), f"match {{match_id}} stands twice in {kind}")
            for row in rows:
                if row["match_id"] not in mistakes.matches:
                    self._keep(kind, row)
        self.problems += reader.problems + mistakes.problems()
        self.left_out |= mistakes.matches

    def _keep(self, kind: str, row: dict[str, str]) -> None:
        match = row.pop("match_id")
        said = {name: text.strip() for name, text in row.items() if text.strip()}
        if kind == MATCHES:
            self._matches[match] = said
        else:
            place = number_of(said.pop("innings")) or 0  # it was checked: 1 or more
            self._innings.setdefault(match, {})[place] = said


def _picked(header: list[str], file: str, kind: str) -> dict[str, int]:
    missing = [name for name in KEYS[kind] if name not in header]
    if missing:
        told = not_apart(header) or f"wrong header: nothing for {', '.join(missing)}"
        raise UserError(Problem(file, told, 1, 1))
    return {name: header.index(name) for name in COLUMNS[kind] if name in header}


def _check(block: Block, kind: str, mistakes: Mistakes) -> None:
    check_present(block, KEYS[kind], mistakes)
    check_numbers(block, MATCH_NUMBERS if kind == MATCHES else INNINGS_NUMBERS, mistakes)
    if kind == INNINGS:
        count = number(block, "innings", MOST_INNINGS, mistakes)
        mistakes.add(block, count == 0, "innings 0: the first is 1")
        for name in INNINGS_FLAGS:
            flag(block, name, False, mistakes)
