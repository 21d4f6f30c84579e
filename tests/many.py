"""Archives of two million deliveries, for tests of memory: match files, rows, tables of our own."""

from __future__ import annotations

import os
from pathlib import Path

from tests.ball_tables import write_many
from tests.matchfiles import write_match_files
from tests.rowfiles import write_row_table

DELIVERIES = 2_000_000  # each has at least so many
FILES, TIMES = 165, 20  # match files, and how many names each has
MATCHES = 3_300  # of the table of rows
TIMES_OWN = 7  # the demo so many times, as tables of our own
MATCH_FILES, ROWS, OWN = "matches", "m.csv", "own"  # below the folder


def write(folder: Path) -> None:
    """The three of them; of the rows a third of the matches do not stand together."""
    matches = folder / MATCH_FILES
    assert write_match_files(matches, FILES) * TIMES > DELIVERIES
    for path in list(matches.iterdir()):
        for again in range(1, TIMES):
            os.link(path, path.with_name(f"{path.stem}-{again}.json"))
    with (folder / ROWS).open("w", encoding="utf-8") as file:
        write_row_table(file, MATCHES, late=True)
    assert write_many(folder / OWN, TIMES_OWN) > DELIVERIES
