"""Mistakes of a source's rows: one problem a kind and file, and the matches that are left out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from pipeline.errors import Problem
from pipeline.ingest.ball_tables.table_files import TableFile
from pipeline.text import listed

TOLD = 5  # the most matches that one line names
LONGEST = 60  # characters of a cell that a line repeats


def short(cell: object) -> str:
    text = str(cell)
    return text if len(text) <= LONGEST else f"{text[:LONGEST]}…"


@dataclass
class Alike:
    """The first of some rows with the same mistake, how many they are, and whose."""

    row: int
    message: str
    count: int = 0
    matches: dict[str, None] = field(default_factory=dict)

    def told(self) -> str:
        """'...; 3 more rows like it, in matches a and b'."""
        more = self.count - 1
        names = [short(name) for name in self.matches]
        if not more:
            return self.message
        others = [f"{len(names) - TOLD:,} more"] if len(names) > TOLD else []
        of = f", in matches {listed([*names[:TOLD], *others])}" if len(names) > 1 else ""
        return f"{self.message}; {more:,} more row{'s' if more > 1 else ''} like it{of}"


@dataclass
class Wrong:
    """What was found so far."""

    refused: list[Problem] = field(default_factory=list)
    matches: set[str] = field(default_factory=set)
    _found: dict[tuple[TableFile, str], Alike] = field(default_factory=dict)

    def add(
        self,
        file: TableFile,
        rows: Sequence[int],
        kind: str,
        message: str,
        matches: Iterable[str | None] = (),
    ) -> None:
        """Rows of a file (counted from 0) that share a `kind` of mistake; `message` is the first's.

        Their matches are left out.
        """
        alike = self._found.setdefault((file, kind), Alike(int(rows[0]), message))
        alike.count += len(rows)
        named = dict.fromkeys(match for match in matches if match is not None)
        alike.matches |= named
        self.matches |= set(named)

    def problems(self) -> list[Problem]:
        """All of them with their lines; every file is read once more for these."""
        by_file: dict[TableFile, list[Alike]] = {}
        for (file, _), alike in self._found.items():
            by_file.setdefault(file, []).append(alike)
        told = list(self.refused)
        for file, found in by_file.items():
            lines = file.lines_of(alike.row for alike in found)
            told += [file.problem(alike.told(), lines.get(alike.row)) for alike in found]
        return sorted(told)
