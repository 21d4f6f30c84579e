"""python -m tests.calibration [--sims N]: simulate, and write results.csv and calibration.png."""

from __future__ import annotations

import argparse
import csv
import time
from pathlib import Path

import numpy as np

from tests.calibration.figure import draw
from tests.calibration.scenarios import ALL, Row

HERE = Path(__file__).parent
SEED, SIMS = 20170301, 8000


def simulate(sims: int, seed: int = SEED) -> list[Row]:
    """Every scenario, each with a generator of its own: one more scenario moves no other."""
    rows: list[Row] = []
    for place, scenario in enumerate(ALL):
        rows += scenario(np.random.default_rng([seed, place]), sims)
    return rows


def write(rows: list[Row], path: Path) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(Row._fields)
        for row in rows:
            writer.writerow([*row[:3], f"{row.value:.4f}", f"{row.mc_error:.4f}"])


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.calibration", description=__doc__)
    parser.add_argument("--sims", type=int, default=SIMS, help="simulations a scenario")
    options = parser.parse_args()
    begun = time.perf_counter()
    rows = simulate(options.sims)
    write(rows, HERE / "results.csv")
    draw(rows, HERE / "calibration.png")
    print(
        f"{len(rows)} results of {options.sims} simulations in {time.perf_counter() - begun:.0f} s"
    )


if __name__ == "__main__":
    main()
