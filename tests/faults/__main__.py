"""python -m tests.faults: try damaged, odd and hostile inputs, and kills.

With FULL=1 a hundred thousand inputs and two hundred kills, whose results are kept in results.csv.
Each input is made from the seed, its area and its number: the same at every run of the same code.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.faults.areas import AREAS, Area
from tests.faults.numbered import Work, share
from tests.faults.results import OTHER, Result, keep, result
from tests.faults.tried import Tried

SEED, CORES, SHOWN = 1, 2, 20


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.faults", description=__doc__)
    parser.add_argument("--only", metavar="AREA", help="this one; what is kept of the others stays")
    parser.add_argument("--inputs", type=int, help="of each area; tells, and keeps nothing")
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument(
        "--tried", type=Path, metavar="FILE", help="keep each outcome; go on from it"
    )
    options = parser.parse_args()
    full = bool(os.environ.get("FULL"))
    chosen = [area for area in AREAS if options.only in (None, area.name)]
    if not chosen:
        sys.exit(f"no such area; there are: {', '.join(area.name for area in AREAS)}")
    found = []
    with TemporaryDirectory(prefix="faults-") as folder:
        for area in chosen:
            count = options.inputs or (area.full if full else area.inputs)
            found.append(_campaign(area, count, options.seed, Path(folder), options.tried))
    if full and not options.inputs and options.seed == SEED:
        keep(found, [area.name for area in AREAS])
    bad = sum(each.other for each in found)
    print(f"{sum(each.inputs for each in found)} inputs, {bad} that end in neither way")
    sys.exit(1 if bad else 0)


def _campaign(area: Area, count: int, seed: int, folder: Path, kept: Path | None) -> Result:
    """All inputs of an area, shared out to processes, each of which has a folder of its own."""
    begun = time.monotonic()
    outcomes: Counter[str] = Counter()
    first: dict[str, int] = {}
    at = AREAS.index(area)
    tried = Tried(kept.resolve()) if kept else None
    work = [
        Work(at, seed, part, count, CORES, folder / f"{at}.{part}", tried) for part in range(CORES)
    ]
    with ProcessPoolExecutor(CORES, mp_context=get_context("spawn")) as pool:
        for found in pool.map(share, work):
            for number, told in found:
                outcomes[told] += 1
                first.setdefault(told, number)
    one = result(area.name, outcomes)
    seconds = time.monotonic() - begun
    print(
        f"{area.name}: {one.inputs} inputs, {one.ok} ok, {one.refused} refused, {one.other} other",
        end="",
    )
    print(f" ({seconds:.0f} s)", flush=True)
    for cause in [each for each in outcomes if each.startswith(OTHER)][:SHOWN]:
        print(f"  {outcomes[cause]} x {cause} (first: number {first[cause]})", flush=True)
    return one


if __name__ == "__main__":
    main()
