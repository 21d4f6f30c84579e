"""One source into tables, a problem a mistake in its files."""

from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Iterator
from functools import partial
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from pipeline import tables
from pipeline.batches import FOLDER, LIST, file_of
from pipeline.contracts.batch import Batches
from pipeline.contracts.files import as_json
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.ingest.batch import Made, Reader, batch_of, batch_of_rows, batch_told
from pipeline.ingest.chunk import Chunk
from pipeline.ingest.columns import merged_people
from pipeline.ingest.oddities import merged
from pipeline.ingest.progress import progress
from pipeline.ingest.read import Found, listed, read_source, shared_out
from pipeline.ingest.source_report import report_of
from pipeline.processors import available
from pipeline.provenance import code_of

if TYPE_CHECKING:
    from pipeline.config.project import Source

MOST_WORKERS = 6  # each holds some 130 MB; to so many the largest archive is seconds of work


def ingest(source: Source, out: Path, threads: int | None = None) -> None:
    """Write batches as they are read, and in the end what tells which of them are the tables.

    A failing source leaves earlier outputs as they were; what it could read need not be read again.
    """
    folder = out / FOLDER
    problems, batches = _batches(source, folder, min(threads or available(), MOST_WORKERS))
    figures: Counter[str] = Counter()
    strays: Counter[str] = Counter()
    odd = merged([])
    made: dict[str, str] = {}
    for each in batches:
        made[each.name] = each.sha
        problems += each.batch.problems
        strays.update(each.batch.strays)
        figures.update(each.batch.figures)
        odd = merged([odd, each.batch.odd])
    stop_if_asked(source, problems, figures["matches"])
    people = merged_people([file_of(folder / name, "people") for name in made])
    tables.write_table(file_of(out, "people"), people, tables.PEOPLE)
    told = [str(problem) for problem in problems]
    report = report_of(source.id, figures, people, told, strays, odd)
    write_atomically(out / "report.json", as_json(report))
    write_atomically(out / LIST, as_json(Batches(batches=made)))
    _tidy(folder, set(made))


def _batches(source: Source, folder: Path, workers: int) -> tuple[list[Problem], Iterator[Made]]:
    """What is wrong before anything is read, and the batches as they are made."""
    if source.layout != "match-json":
        found = read_source(source)
        first = next(found, Found(Chunk().tables()))  # one at least, if of nothing
        return [], map(partial(batch_of_rows, folder), chain([first], found))
    chunks, problems = listed(source)
    fresh = not folder.is_dir() or not any(folder.iterdir())
    reader = Reader(Path(source.path), source.id, code_of("pipeline.ingest.batch"), folder, fresh)
    there = [batch_told(reader, names) for names in chunks]
    unread = [names for names, made in zip(chunks, there, strict=True) if made is None]
    read = shared_out(partial(batch_of, reader), unread, workers, source.path)
    return problems, _in_order(there, progress(read, len(unread), f"ingest {source.id}"))


def _in_order(there: list[Made | None], read: Iterator[Made]) -> Iterator[Made]:
    """Those that are there, and in the gaps those that are read."""
    for made in there:
        yield made or next(read)
    next(read, None)  # to its end, at which its processes end


def _tidy(folder: Path, made: set[str]) -> None:
    """Take away the batches that are no longer of the source, and what killed runs left."""
    for there in folder.iterdir():
        if there.name not in made:
            shutil.rmtree(there, ignore_errors=True)


def stop_if_asked(source: Source, problems: list[Problem], left: int) -> None:
    """With on_error 'stop' every mistake is listed and nothing is written.

    To go on without them is offered only where some matches are `left`.
    """
    if problems and source.on_error == "stop":
        files = len({problem.file for problem in problems})
        going_on = ", or set on_error: quarantine in sources.yaml to go on without them"
        without = going_on if left else ": without them no match is left"
        last = Problem(
            source.path,
            f"{len(problems)} mistake(s) in {files} file(s), nothing written; mend them{without}",
        )
        raise UserError([*problems, last])
