"""What was tried so far, a line an input, so that a long campaign can be ended and gone on with."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import NamedTuple


class Tried(NamedTuple):
    """A file of lines 'area, seed, number, outcome', that several processes add to."""

    path: Path

    def of(self, area: str, seed: int) -> dict[int, str]:
        """Outcomes of an area by the number of the input; none where nothing was tried."""
        if not self.path.is_file():
            return {}
        with self.path.open(encoding="utf-8", newline="") as file:
            rows = [each for each in csv.reader(file) if each[:2] == [area, str(seed)]]
        return {int(number): told for _, _, number, told in rows}

    def add(self, area: str, seed: int, number: int, told: str) -> None:
        """One line, written at once: a line shorter than a page is not torn by another process."""
        with self.path.open("a", encoding="utf-8", newline="") as file:
            csv.writer(file, lineterminator="\n").writerow((area, seed, number, told))
