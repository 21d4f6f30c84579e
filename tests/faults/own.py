"""Tables of our own by chance: cells, rows, columns and files that are odd, then damaged."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

import pyarrow.parquet as pq

from tests.ball_tables import csv_text, small, zipped
from tests.faults.damage import damaged, odd_text
from tests.faults.made import csv_bytes
from tests.faults.tables import arrow

Rows = list[dict[str, Any]]


def own(rng: Random, folder: Path) -> Path:
    """A folder or a zip of them, with none to three things that are odd."""
    tables = world()
    for _ in range(rng.choice((0, 1, 1, 2, 3))):
        _change(rng, tables[rng.choice(sorted(tables))])
    path = folder / "own"
    path.mkdir()
    for name, rows in tables.items():
        if rows:
            _write(path, name, rows, rng)
    files = sorted(path.iterdir())
    if files and rng.random() < 0.15:
        one = rng.choice(files)
        one.write_bytes(damaged(one.read_bytes(), rng))
    if rng.random() < 0.7:
        return path
    archive = zipped(folder / "own.zip", {each.name: each.read_bytes() for each in files})
    if rng.random() < 0.3:
        archive.write_bytes(damaged(archive.read_bytes(), rng))
    return archive


def world() -> dict[str, Rows]:
    """Two small matches in all five tables."""
    sides = ((1, "Northmoor"), (2, "Southfen"))
    innings = [
        {"match_id": match, "innings": number, "batting_team": side, "target_runs": ""}
        for match in ("m1", "m2")
        for number, side in sides
    ]
    people = [{"id": one, "name": one, "team": "x"} for one in ("n1", "n2", "s1", "s2")]
    balls = [{**row, "wides": "", "non_boundary": 0} for row in small()["deliveries"]]
    return {**small(), "deliveries": balls, "innings": innings, "people": people}


def _change(rng: Random, rows: Rows) -> None:
    """A cell, a row, the order, or a column; a table may lose its rows."""
    what = rng.random()
    if what < 0.5 and rows:
        row = rng.choice(rows)
        row[rng.choice(sorted(row))] = odd_text(rng)
    elif what < 0.6 and rows:
        rows.append(dict(rng.choice(rows)))
    elif what < 0.7 and rows:
        rows.pop(rng.randrange(len(rows)))
    elif what < 0.8 and rows:
        one, other = rng.randrange(len(rows)), rng.randrange(len(rows))
        rows[one], rows[other] = rows[other], rows[one]
    elif what < 0.9 and rows:
        name = rng.choice(sorted(rows[0]))
        for row in rows:
            row.pop(name, None)
    else:
        for row in rows:
            row[rng.choice(("stray", "delivered", "revision"))] = 1
        rows[:] = [dict.fromkeys(sorted({n for row in rows for n in row}), "") | r for r in rows]


def _write(folder: Path, name: str, rows: Rows, rng: Random) -> None:
    if (far := rng.random()) < 0.6:
        plain = csv_text(rows).encode("utf-8", "replace")
        data = csv_bytes(rows, rng) if far < 0.1 else plain
        (folder / f"{name}.csv").write_bytes(data)
        return
    header = list(dict.fromkeys(key for row in rows for key in row))
    whole = [{key: row.get(key, "") for key in header} for row in rows]
    if header:
        pq.write_table(arrow(whole, rng), folder / f"{name}.parquet")
