"""What stands beside the rows: an info file for each match, tables of the matches and innings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from pipeline.errors import Problem, UserError
from pipeline.ingest.info_csv import InfoFile, parse_info
from pipeline.ingest.members import file_of, read_members
from pipeline.ingest.mistakes import Mistakes
from pipeline.ingest.row_names import INNINGS_FLAGS, INNINGS_NUMBERS, MATCH_TEXT, OF_INNINGS
from pipeline.ingest.text_blocks import Block
from pipeline.ingest.text_checks import check_present, flag, number, whole
from pipeline.ingest.text_reader import Reader

INFO = "_info.csv"
MATCHES, INNINGS = "matches.csv", "innings.csv"
MATCH_NUMBERS = {"overs_limit": 999, "balls_per_over": 99, "revision": 999_999}
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
    infos: dict[str, str]  # match -> the name of its info file
    tables: list[str]  # names of tables beside the rows
    problems: list[Problem] = field(default_factory=list)
    left_out: set[str] = field(default_factory=set)  # matches of which something can't be read

    def __post_init__(self) -> None:
        self.strays: Counter[str] = Counter()  # keys of info files that the layout does not have
        self._matches: dict[str, dict[str, str]] = {}
        self._innings: dict[str, dict[int, dict[str, str]]] = {}
        for name in self.tables:
            self._read_table(name)

    def of(self, matches: Iterable[str]) -> dict[str, InfoFile]:
        """What is known of some matches; what an info file says goes before a table."""
        wanted = {self.infos[match]: match for match in matches if match in self.infos}
        found = {}
        for name, data in read_members(self.path, list(wanted)) if wanted else ():
            match, file = wanted[name], file_of(self.path, name)
            try:
                if isinstance(data, str):
                    raise UserError(Problem(file, data))
                found[match] = parse_info(data, file)
                self.strays.update(found[match].strays)
            except UserError as error:
                self.problems += error.problems
                self.left_out.add(match)
        return {match: self._merged(match, found.get(match, NOTHING)) for match in matches}

    def _merged(self, match: str, info: InfoFile) -> InfoFile:
        facts = {**self._matches.get(match, {}), **info.match}
        innings = {place: dict(said) for place, said in self._innings.get(match, {}).items()}
        for place, said in info.innings.items():
            innings.setdefault(place, {}).update(said)
        return InfoFile(facts, info.people, innings)

    def _read_table(self, name: str) -> None:
        kind = Path(name).name
        reader = Reader(self.path, lambda header, file: _picked(header, file, kind))
        mistakes = Mistakes()
        seen: set[tuple[str, ...]] = set()
        for block in reader.blocks([name]):
            _check(block, kind, mistakes)
            rows = [block.cells(row) for row in range(len(block))]
            keys = [tuple(row[key] for key in KEYS[kind]) for row in rows]
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
            place = int(said.pop("innings").removesuffix(".0"))
            self._innings.setdefault(match, {})[place] = said


def _picked(header: list[str], file: str, kind: str) -> dict[str, int]:
    missing = [name for name in KEYS[kind] if name not in header]
    if missing:
        raise UserError(Problem(file, f"wrong header: nothing for {', '.join(missing)}", 1, 1))
    return {name: header.index(name) for name in COLUMNS[kind] if name in header}


def _check(block: Block, kind: str, mistakes: Mistakes) -> None:
    check_present(block, KEYS[kind], mistakes)
    numbers = MATCH_NUMBERS if kind == MATCHES else INNINGS_NUMBERS
    for name, most in numbers.items():
        if name in block.columns:
            number(block, name, most, mistakes)
    if "balls_per_over" in block.columns:
        none = block.columns["balls_per_over"].having(lambda text: text.strip() in ("0", "0.0"))
        mistakes.add(block, none, "no over has 0 balls: balls_per_over")
    if kind == INNINGS:
        whole(block, "innings", mistakes)
        for name in INNINGS_FLAGS:
            flag(block, name, False, mistakes)
