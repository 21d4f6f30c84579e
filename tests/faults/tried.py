"""What was tried so far, a line an input, so that a long campaign can be ended and gone on with."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import NamedTuple

CELLS = 4  # of a line


class Tried(NamedTuple):
    """A file of lines 'area, seed, number, outcome', that several processes add to.

    It is of one state of the code: begin another file when that has changed.
    """

    path: Path

    def of(self, area: str, seed: int) -> dict[int, str]:
        """Outcomes of an area by the number of the input; none where nothing was tried.

        A line that was torn when the campaign was ended is passed over, and tried again.
        """
        if not self.path.is_file():
            return {}
        with self.path.open(encoding="utf-8", newline="") as file:
            rows = [each for each in csv.reader(file) if len(each) == CELLS]
        mine = (each[2:] for each in rows if each[:2] == [area, str(seed)])
        return {int(number): told for number, told in mine}

    def add(self, area: str, seed: int, number: int, told: str) -> None:
        """One line, written at once: a line shorter than a page is not torn by another process."""
        with self.path.open("a", encoding="utf-8", newline="") as file:
            csv.writer(file, lineterminator="\n").writerow((area, seed, number, told))
