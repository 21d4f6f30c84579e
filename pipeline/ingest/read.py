"""One source's files, chunk by chunk: members shared out to processes, gathered in order."""

from __future__ import annotations

import gc
import os
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from pipeline.errors import Problem
from pipeline.ingest.chunk import BadMatch, Chunk
from pipeline.ingest.columns import Tables
from pipeline.ingest.from_json import add_match
from pipeline.ingest.match_json import decode
from pipeline.ingest.members import file_of, list_members, read_members
from pipeline.ingest.progress import progress

if TYPE_CHECKING:
    from pipeline.config.project import Source

CHUNK = 200  # matches a task: large enough to share out cheaply, small enough for the memory


@dataclass
class Found:
    """What some of a source's files gave: tables, the bad files, the stray keys by place."""

    tables: Tables
    problems: list[Problem] = field(default_factory=list)
    strays: Counter[str] = field(default_factory=Counter)


def read_source(source: Source) -> Iterator[Found]:
    """The tables of every match that adds up, and a problem for each file that does not."""
    if source.layout == "match-json":
        return _read_json(source)
    if source.layout == "ball-tables":
        from pipeline.ingest.ball_tables.read import read_ball_tables

        return (Found(*part) for part in read_ball_tables(source))
    from pipeline.ingest.from_rows import read_rows

    return (Found(*found) for found in read_rows(source))


def _read_json(source: Source) -> Iterator[Found]:
    path = Path(source.path)
    listed, refused = list_members(path, ".json")
    names, repeated = _by_id(source, listed)
    yield Found(Chunk().tables(), refused + repeated)
    chunks = [names[start : start + CHUNK] for start in range(0, len(names), CHUNK)]
    task = partial(read_chunk, path, source.id)
    yield from progress(_run(task, chunks), len(chunks), f"ingest {source.id}")


def _run(task: Callable[[list[str]], Found], chunks: list[list[str]]) -> Iterable[Found]:
    workers = min(len(chunks), os.cpu_count() or 1)
    if workers < 2:
        yield from map(task, chunks)
        return
    with ProcessPoolExecutor(workers) as pool:
        yield from pool.map(task, chunks)


def read_chunk(path: Path, source: str, names: list[str]) -> Found:
    """Decode and flatten some members; a bad one is named with the place in it."""
    chunk, problems = Chunk(), list[Problem]()
    strays: Counter[str] = Counter()
    gc.disable()  # decoded matches hold no cycles, and looking for some costs a tenth of the time
    try:
        for name, data in read_members(path, names):
            try:
                if isinstance(data, str):
                    raise BadMatch(data)
                add_match(chunk, Path(name).stem, decode(data, strays), source)
            except (BadMatch, msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
                problems.append(Problem(file_of(path, name), _reason(error)))
    finally:
        gc.enable()
    return Found(chunk.tables(), problems, strays)


def _reason(error: Exception) -> str:
    if isinstance(error, msgspec.ValidationError):
        return f"not as the layout says: {error}"
    if isinstance(error, (msgspec.DecodeError, UnicodeDecodeError)):
        return f"not readable JSON: {error}"
    if isinstance(error, RecursionError):
        return "not readable JSON: nested too deep"
    return str(error)


def _by_id(source: Source, names: list[str]) -> tuple[list[str], list[Problem]]:
    """The first file of each match id (its name), and a problem for each that repeats one."""
    seen: dict[str, str] = {}
    problems = []
    for name in names:
        stem = Path(name).stem
        if stem in seen:
            message = f"same match id as {seen[stem]}; keep one of the two"
            problems.append(Problem(f"{source.path}/{name}", message))
        else:
            seen[stem] = name
    return list(seen.values()), problems
