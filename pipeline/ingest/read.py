"""One source to its tables: members shared out to processes, gathered in order."""

from __future__ import annotations

import os
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

import msgspec
import pyarrow as pa

from pipeline.config.project import Source
from pipeline.errors import Problem, UserError
from pipeline.ingest.chunk import BadMatch, Chunk, Tables
from pipeline.ingest.files import list_members, read_members
from pipeline.ingest.from_json import add_match
from pipeline.ingest.match_json import decode
from pipeline.ingest.report import progress

CHUNK = 100  # matches a task: large enough to share out cheaply, small enough for the memory


def read_source(source: Source) -> tuple[Tables, list[Problem]]:
    """The tables of every match that adds up, and a problem for each file that does not."""
    if source.layout == "match-json":
        return _read_json(source)
    from pipeline.ingest.from_rows import read_rows

    return read_rows(source)


def _read_json(source: Source) -> tuple[Tables, list[Problem]]:
    path = Path(source.path)
    names, repeated = _by_id(source, list_members(path, ".json"))
    chunks = [names[start : start + CHUNK] for start in range(0, len(names), CHUNK)]
    task = partial(read_chunk, path, source.id)
    found: list[Tables] = []
    problems: list[Problem] = []
    for tables, wrong in progress(_run(task, chunks), len(chunks), f"ingest {source.id}"):
        found.append(tables)
        problems.extend(wrong)
    return join(found), problems + repeated


def _run(task: partial, chunks: list[list[str]]) -> Iterable[tuple[Tables, list[Problem]]]:
    workers = min(len(chunks), os.cpu_count() or 1)
    if workers == 1:
        yield from map(task, chunks)
        return
    with ProcessPoolExecutor(workers) as pool:
        yield from pool.map(task, chunks)


def read_chunk(path: Path, source: str, names: list[str]) -> tuple[Tables, list[Problem]]:
    """Decode and flatten some members; a bad one is named with the place in it."""
    chunk, problems = Chunk(), []
    for name, data in read_members(path, names):
        try:
            if isinstance(data, str):
                raise BadMatch(data)
            add_match(chunk, Path(name).stem, decode(data), source)
        except (BadMatch, msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
            problems.append(Problem(f"{path}/{name}", _reason(error)))
    return chunk.tables(), problems


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


def join(found: list[Tables]) -> Tables:
    """Chunks put together; dictionaries unified, people once each."""
    parts = {
        name: pa.concat_tables([getattr(tables, name) for tables in found])
        for name in ("deliveries", "dismissals", "matches", "innings", "people")
    }
    parts["deliveries"] = parts["deliveries"].unify_dictionaries()
    people = dict(zip(*(parts["people"][c].to_pylist() for c in ("id", "name")), strict=True))
    ordered = sorted(people.items())
    parts["people"] = pa.table(
        {"id": [i for i, _ in ordered], "name": [n for _, n in ordered]}, parts["people"].schema
    )
    return Tables(**parts)


def stop_if_asked(source: Source, problems: list[Problem]) -> None:
    """With on_error 'stop' every bad file is listed and nothing is written."""
    if problems and source.on_error == "stop":
        last = Problem(
            source.path,
            f"{len(problems)} bad file(s), nothing written; mend them, "
            "or set on_error: quarantine in sources.yaml to go on without them",
        )
        raise UserError([*problems, last])
