"""python -m tests.calibration [--sims N]: simulate, and write results.csv and calibration.png."""

from __future__ import annotations

import argparse
import time
from pathlib import Path

from tests.calibration.figure import draw
from tests.calibration.simulate import simulate, write

HERE = Path(__file__).parent
SIMS = 8000


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
