"""What is wrong in rows: a problem for each kind of mistake and file, with its first line."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from pipeline.errors import Problem
from pipeline.ingest.csv_by_line import lines_of
from pipeline.ingest.text_blocks import Block, File
from pipeline.text import listed

TOLD = 5  # the most matches that one line names
LONGEST = 60  # characters of a cell that a line repeats


@dataclass
class Alike:
    """Rows of one file that are wrong in one way: the first, how many, and of which matches."""

    place: int
    told: str
    count: int = 0
    matches: list[str] = field(default_factory=list)  # the first that are named
    of: int = 0  # matches in all


@dataclass
class Mistakes:
    """All that is wrong in a source's rows, gathered block by block, and the matches it is in."""

    key: str = "match_id"  # the column whose texts are named as the matches
    matches: set[str] = field(default_factory=set)
    found: dict[tuple[File, str], Alike] = field(default_factory=dict)

    def add(self, block: Block, wrong: np.ndarray, message: str) -> None:
        """Count the rows that are wrong; braces in the message stand for the first one's cells.

        A match must stand whole in a block, or it is counted once for each.
        """
        if not wrong.any():
            return
        rows = np.flatnonzero(wrong)
        for place in np.unique(block.file[rows]):
            alike = rows[block.file[rows] == place]
            first = int(alike[np.argmin(block.place[alike])])
            self._add(block, first, alike, message)

    def _add(self, block: Block, first: int, alike: np.ndarray, message: str) -> None:
        key = (block.files[block.file[first]], message)
        kept = self.found.get(key)
        if kept is None:
            cells = {name: short(text) for name, text in block.cells(first).items()}
            kept = self.found[key] = Alike(int(block.place[first]), message.format_map(cells))
        kept.count += len(alike)
        if names := block.columns.get(self.key):
            codes = names.codes[alike]
            seen = list(dict.fromkeys(codes.tolist()))
            matches = [names.values[code] for code in seen]
            self.matches |= set(matches)
            told = [short(name) for name in matches if name.strip()]
            kept.of += len(told)
            kept.matches += told[: TOLD - len(kept.matches)]

    def problems(self) -> list[Problem]:
        """One for each kind of mistake and file; lines are looked for only now."""
        by_file: defaultdict[File, list[Alike]] = defaultdict(list)
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


def _lines(file: File, places: Sequence[int]) -> dict[int, int]:
    """Lines of a file's rows; those of a table in Parquet are counted as a CSV's."""
    if file.name.endswith(".parquet"):
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
