"""What tables of our own can't hold, told by the source's own words: table, line and row."""

from __future__ import annotations

from collections import Counter
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

import pyarrow.parquet as pq

from pipeline.errors import Problem
from pipeline.ingest.ball_tables.match_contract import TABLES
from pipeline.ingest.columns import Person
from pipeline.ingest.csv_by_line import rows_of
from pipeline.ingest.mistakes import short

if TYPE_CHECKING:
    from pipeline.config.project import Source

MOST = 5  # people that are named
# The table that a figure is counted in; all others are of the deliveries.
COUNTED_IN = {
    **dict.fromkeys(("matches", "super_overs_set_aside"), "matches"),
    **dict.fromkeys(("innings", "overs_marked_miscounted", "innings_forfeited"), "innings"),
    **dict.fromkeys(("wickets", "bowler_wickets"), "dismissals"),
}


def of_source(source: Source, problem: Problem) -> Problem:
    """A mistake in a table that was written, as one of the source: with the row itself.

    The table is gone when this is read, so that its line alone would help nobody.
    """
    file, line = Path(problem.file), problem.line
    table = f" in the table {file.stem}" if file.stem in TABLES else ""
    row = ""
    if table and line is not None:
        cells = {name: cell for name, cell in _cells(file, line).items() if cell}
        told = ", ".join(f"{name} '{short(cell)}'" for name, cell in cells.items())
        row = f", line {line} as it would be written ({told})"
    message = f"source '{source.id}' can't stand{table}{row}: {problem.message}"
    return Problem(source.path, message)


def kept_as_it_is(source: Source) -> Problem:
    """The last line: what to do."""
    message = "nothing was written; mend that in the source, or keep the layout that it has"
    return Problem(source.path, f"source '{source.id}': {message}")


def differing(before: Counter[str], after: Counter[str], people: set[Person]) -> list[str]:
    """What is not the same when it is read again, a line a table."""
    moved: dict[str, list[str]] = {}
    for name in before | after:
        if before[name] != after[name]:
            told = f"{name} {before[name]:,} and {after[name]:,}"
            moved.setdefault(COUNTED_IN.get(name, "deliveries"), []).append(told)
    if people:
        first = [f"'{each.name}' ({each.id}, {each.team})" for each in islice(sorted(people), MOST)]
        more = [f"{len(people) - MOST:,} more"] if len(people) > MOST else []
        moved["people"] = [*first, *more]
    return [
        f"written and read again, the table {table} is not the same ({', '.join(told)})"
        for table, told in moved.items()
    ]


def _cells(file: Path, line: int) -> dict[str, str]:
    """The row of a written table that begins on a line, by its columns, as text."""
    names = TABLES[file.stem].names
    if file.suffix == ".parquet":
        rows = pq.read_table(file).slice(line - 2, 1).to_pylist()
        return {n: "" if v is None else str(v) for row in rows for n, v in row.items()}
    for row in rows_of(lambda: file.open("rb"), str(file)):
        if row.line >= line:
            return dict(zip(names, row.cells, strict=False))
    return {}
