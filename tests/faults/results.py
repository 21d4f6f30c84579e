"""What the campaign found, an area a row, as it is kept in results.csv."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

RESULTS = Path(__file__).parent / "results.csv"
HEADER = ("area", "inputs", "ok", "refused", "other", "causes")
OTHER = "other"


class Result(NamedTuple):
    """`refused`: one clear line; of kills: told how to go on. `causes`: of the others, distinct."""

    area: str
    inputs: int
    ok: int
    refused: int
    other: int
    causes: int


def result(area: str, outcomes: Counter[str]) -> Result:
    """Counts of outcomes: 'ok', 'refused', or 'other: cause'."""
    others = {told: count for told, count in outcomes.items() if told.startswith(OTHER)}
    strange = set(outcomes) - {"ok", "refused"} - set(others)
    if strange:
        raise ValueError(f"{area}: no outcome: {sorted(strange)}")
    return Result(
        area,
        sum(outcomes.values()),
        outcomes["ok"],
        outcomes["refused"],
        sum(others.values()),
        len(others),
    )


def row(one: Result) -> str:
    """A line of the README's table."""
    counts = " | ".join(f"{count:,}" for count in (one.inputs, one.ok, one.refused, one.other))
    return f"| {one.area} | {counts} |"


def write(results: Iterable[Result], path: Path = RESULTS) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(HEADER)
        rows.writerows(results)


def keep(found: Iterable[Result], order: list[str], path: Path = RESULTS) -> None:
    """The results of some areas in place of those that were kept of them; others stay."""
    kept = {one.area: one for one in (read(path) if path.is_file() else [])}
    kept |= {one.area: one for one in found}
    write([kept[area] for area in order if area in kept], path)


def read(path: Path = RESULTS) -> list[Result]:
    with path.open(encoding="utf-8", newline="") as file:
        header, *rows = csv.reader(file)
    assert tuple(header) == HEADER
    return [Result(area, *map(int, counts)) for area, *counts in rows]
