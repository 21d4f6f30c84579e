"""What is wrong in rows: a problem for each kind of mistake and file, with its first line."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from typing import IO, Protocol

import numpy as np

from pipeline.errors import Problem
from pipeline.ingest.csv_by_line import lines_of
from pipeline.ingest.members import is_parquet
from pipeline.ingest.text_blocks import Block
from pipeline.text import listed

TOLD = 5  # the most matches that one line names
LONGEST = 60  # characters of a cell that a line repeats


More = Callable[[dict[str, str]], str]  # of the first row's cells: what a message says further


class OfRows(Protocol):
    """A file with rows, as it is named to people and as it is opened."""

    @property
    def name(self) -> str: ...

    @property
    def label(self) -> str: ...

    def opened(self) -> AbstractContextManager[IO[bytes]]: ...

    def __hash__(self) -> int: ...


@dataclass
class Alike:
    """Rows of one file that are wrong in one way: the first, how many, and of which matches."""

    place: int
    told: str = ""
    count: int = 0
    matches: list[str] = field(default_factory=list)  # the first that are named
    of: int = 0  # matches in all


@dataclass
class Mistakes:
    """All that is wrong in a source's rows, gathered block by block, and the matches it is in."""

    key: str = "match_id"  # the column whose texts are named as the matches
    matches: set[str] = field(default_factory=set)
    found: dict[tuple[OfRows, str], Alike] = field(default_factory=dict)

    def add(self, block: Block, wrong: np.ndarray, message: str, more: More | None = None) -> None:
        """Count the rows that are wrong; braces in the message stand for the first one's cells.

        `more` is put behind it. A match must stand whole in a block, or it is counted once for
        each.
        """
        if not wrong.any():
            return
        rows = np.flatnonzero(wrong)
        for place in np.unique(block.file[rows]):
            alike = rows[block.file[rows] == place]
            first = int(alike[np.argmin(block.place[alike])])
            self._add(block, first, alike, message, more)

    def _add(
        self, block: Block, first: int, alike: np.ndarray, message: str, more: More | None
    ) -> None:
        file, matches = block.files[block.file[first]], list[str]()
        if names := block.columns.get(self.key):
            seen = dict.fromkeys(names.codes[alike].tolist())
            matches = [names.values[code] for code in seen]
        if kept := self.note(file, message, int(block.place[first]), len(alike), matches):
            cells = {name: short(text) for name, text in block.cells(first).items()}
            kept.told = message.format_map(cells) + (more(cells) if more else "")

    def note(
        self, file: OfRows, kind: str, place: int, count: int, matches: Sequence[str]
    ) -> Alike | None:
        """Count rows of a file that share a kind of mistake, the first of them at `place`.

        `matches` are left out. Gives what is kept of them where they are the first of their kind,
        to be told.
        """
        kept = self.found.get((file, kind))
        new = kept is None
        if kept is None:
            kept = self.found[file, kind] = Alike(place)
        kept.count += count
        self.matches |= set(matches)
        told = [short(name) for name in matches if name.strip()]
        kept.of += len(told)
        kept.matches += told[: TOLD - len(kept.matches)]
        return kept if new else None

    def problems(self) -> list[Problem]:
        """One for each kind of mistake and file; lines are looked for only now."""
        by_file: defaultdict[OfRows, list[Alike]] = defaultdict(list)
        for (file, _), alike in self.found.items():
            by_file[file].append(alike)
        made = []
        for file, all_alike in by_file.items():
            lines = _lines(file, [alike.place for alike in all_alike])
            for alike in all_alike:
                told = alike.told + _like_it(alike)
                made.append(Problem(file.label, told, lines[alike.place], 1))
        return made


def short(text: str) -> str:
    """A cell as a message repeats it."""
    return text if len(text) <= LONGEST else f"{text[:LONGEST]}…"


def _lines(file: OfRows, places: Sequence[int]) -> dict[int, int]:
    """Lines of a file's rows; those of a table in Parquet are counted as a CSV's."""
    if is_parquet(file.name):
        return {place: place + 2 for place in places}
    return lines_of(file.opened, file.label, places)


def _like_it(alike: Alike) -> str:
    """'; 3 more rows like it, in matches a and b'."""
    more = alike.count - 1
    if not more:
        return ""
    others = [f"{alike.of - TOLD:,} more"] if alike.of > TOLD else []
    of = f", in matches {listed([*alike.matches, *others])}" if alike.of > 1 else ""
    return f"; {more:,} more row{'s' if more > 1 else ''} like it{of}"
