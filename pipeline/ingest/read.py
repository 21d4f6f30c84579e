"""One source's files, chunk by chunk: members shared out to processes, gathered in order."""

from __future__ import annotations

import gc
import io
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import msgspec
import pyarrow as pa

from pipeline.errors import Problem, UserError
from pipeline.ingest.chunk import BadMatch, Chunk
from pipeline.ingest.chunks import chunks_of
from pipeline.ingest.columns import Tables
from pipeline.ingest.from_json import add_match
from pipeline.ingest.match_json import decode
from pipeline.ingest.members import Member, file_of, list_members, read_members
from pipeline.ingest.other_forms import HEAD, first_undecoded, not_utf_8

if TYPE_CHECKING:
    from pipeline.config.project import Source

ENDED = (
    "a process that read it was ended from outside; if nobody did, the memory was full: close "
    "other programs, or make brief CORES=1; what was read until then is kept"
)

Result = TypeVar("Result")
Names = list[str]


@dataclass
class Found:
    """What some of a source's files gave: tables, the bad files, the stray keys by place.

    `unread`: a file could not be got at, so that another time there may be more.
    """

    tables: Tables
    problems: list[Problem] = field(default_factory=list)
    strays: Counter[str] = field(default_factory=Counter)
    unread: bool = False


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
    chunks, problems = listed(source)
    yield Found(Chunk().tables(), problems)
    path = Path(source.path)
    yield from (read_chunk(path, source.id, read_members(path, names)) for names in chunks)


def listed(source: Source) -> tuple[list[Names], list[Problem]]:
    """A source's match files in chunks, and a problem for each that is not one of them."""
    names, refused = list_members(Path(source.path), ".json")
    names, repeated = _by_id(source, names)
    return chunks_of(names), refused + repeated


def shared_out(
    task: Callable[[Names], Result], chunks: Sequence[Names], workers: int, source: str
) -> Iterable[Result]:
    """The task of each chunk, in order, by as many processes as `workers` says.

    Raises UserError, naming the `source`, where one of them is ended from outside.
    """
    workers = min(len(chunks), workers)
    if workers < 2:
        yield from map(task, chunks)
        return
    pa.array([0])  # the first array imports pandas, a quarter of a second: here, once for all
    try:
        with ProcessPoolExecutor(workers) as pool:
            yield from pool.map(task, chunks)
    except BrokenProcessPool:
        raise UserError(Problem(source, ENDED)) from None


def read_chunk(path: Path, source: str, members: Iterable[Member]) -> Found:
    """Decode and flatten some members; a bad one is named with the place in it."""
    chunk, problems, unread = Chunk(), list[Problem](), False
    strays: Counter[str] = Counter()
    with no_collection():
        for name, data in members:
            try:
                if isinstance(data, str):
                    unread = True
                    raise BadMatch(data)
                add_match(chunk, Path(name).stem, decode(data, strays), source)
            except (BadMatch, msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
                problems.append(Problem(file_of(path, name), _reason(error, data)))
        return Found(chunk.tables(), problems, strays, unread)


@contextmanager
def no_collection() -> Iterator[None]:
    """Decoded matches hold no cycles, and looking for some costs a tenth of the time."""
    before = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if before:
            gc.enable()


def _reason(error: Exception, data: bytes | str) -> str:
    if isinstance(error, RecursionError):
        return "not readable JSON: nested too deep"
    if isinstance(data, str) or isinstance(error, BadMatch):
        return str(error)
    if wrong := first_undecoded(io.BytesIO(data)):
        return not_utf_8(data[:HEAD], wrong, csv=False)
    if isinstance(error, msgspec.ValidationError):
        return f"not as the layout says: {error}"
    return f"not readable JSON: {error}"


def _by_id(source: Source, names: Names) -> tuple[Names, list[Problem]]:
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
