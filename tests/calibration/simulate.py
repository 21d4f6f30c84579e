"""Every scenario of the calibration, and its results as a file."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import numpy as np

from tests.calibration.base import Row
from tests.calibration.scenarios import ALL

SEED = 20170301
CAME_AS = {"ledgers": 11}
Scenario = Callable[[np.random.Generator, int], Iterator[Row]]


def simulate(sims: int, seed: int = SEED, scenarios: Iterable[Scenario] = ALL) -> list[Row]:
    """Every scenario, each with a generator of its own: one more scenario moves no other."""
    rows: list[Row] = []
    for scenario in scenarios:
        rows += scenario(np.random.default_rng([seed, number_of(scenario)]), sims)
    return rows


def number_of(scenario: Scenario) -> int:
    """Its place, or the one that it had when its results were first kept."""
    return CAME_AS.get(scenario.__name__, ALL.index(scenario))


def write(rows: list[Row], path: Path) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(Row._fields)
        for row in rows:
            writer.writerow([*row[:3], f"{row.value:.4f}", f"{row.mc_error:.4f}"])
