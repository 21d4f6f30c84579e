"""python -m tests.bench.decode FOLDER [PROCESSES]: the same files decoded into types, alone."""

from __future__ import annotations

import gc
import os
import sys
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

from pipeline.ingest.chunks import chunks_of
from pipeline.ingest.match_json import decode
from pipeline.ingest.members import list_members, read_members


def main(folder: str, processes: int) -> None:
    path = Path(folder)
    names = list_members(path, ".json")[0]
    chunks = chunks_of(names)
    work = partial(decode_all, path)
    if processes == 1:
        matches = sum(map(work, chunks))
    else:
        with ProcessPoolExecutor(processes) as pool:
            matches = sum(pool.map(work, chunks))
    assert matches == len(names)


def decode_all(path: Path, names: list[str]) -> int:
    gc.disable()
    found = 0
    for _, data in read_members(path, names):
        decode(data)
        found += 1
    return found


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else os.cpu_count() or 1)
