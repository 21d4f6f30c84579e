"""A source into a folder of our own tables, and what was written and left out."""

from __future__ import annotations

import os
import shutil
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from pipeline.convert.write import TableWriters
from pipeline.errors import Problem, UserError
from pipeline.ingest.columns import STREAMED, people_table
from pipeline.ingest.read import read_source
from pipeline.ingest.source_report import Report
from pipeline.ingest.stage import stop_if_asked

if TYPE_CHECKING:
    from pipeline.config.project import Source


@dataclass
class Converted:
    """Rows by table, and a problem for each file, or match, that was left out."""

    rows: dict[str, int]
    left_out: list[Problem] = field(default_factory=list)


def write_converted(source: Source, to: Path, form: str) -> Converted:
    """Write a source's tables; the folder takes its name when all is written and read again.

    Raises UserError for a folder that holds something, and for a source with mistakes unless its
    on_error is 'quarantine'; nothing is left behind then.
    """
    check_empty(to)
    aside = to.with_name(f".{to.name}.{os.getpid()}")
    try:
        aside.mkdir(parents=True)
        report, converted = _write(source, aside, form)
        _read_again(source, aside, report)
        if to.is_dir():
            to.rmdir()  # an empty one
        aside.replace(to)
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    return converted


def check_empty(to: Path) -> None:
    """What somebody has in a folder is not written over."""
    if to.exists() and (not to.is_dir() or any(to.iterdir())):
        raise UserError(Problem(str(to), "is there and not empty; name a new folder"))


def _write(source: Source, folder: Path, form: str) -> tuple[Report, Converted]:
    report, problems = Report(), list[Problem]()
    with TableWriters(folder, form) as writers:
        for found in read_source(source):
            for name in STREAMED:
                writers.write(name, getattr(found.tables, name))
            report.add(found.tables)
            problems += found.problems
        stop_if_asked(source, problems)
        writers.write("people", people_table(report.people))
    return report, Converted(writers.rows, problems)


def _read_again(source: Source, folder: Path, written: Report) -> None:
    """What was written can be read, and says the same; raises UserError if not."""
    own = source.model_copy(
        update={"path": str(folder), "layout": "ball-tables", "columns": None, "constants": {}}
    )
    report, problems = Report(), list[Problem]()
    for found in read_source(own):
        report.add(found.tables)
        problems += found.problems
    if problems:
        told = "what it says can't stand in tables of our own; mend it there: "
        raise UserError(Problem(source.path, told + problem.message) for problem in problems)
    before, after = (_figures(source, each) for each in (written, report))
    moved = [name for name in before if before[name] != after[name]]
    if moved:
        figures = ", ".join(f"{name} {before[name]} and {after[name]}" for name in moved)
        message = f"written and read again it is not the same ({figures}); keep its own layout"
        raise UserError(Problem(source.path, message))


def _figures(source: Source, report: Report) -> dict[str, object]:
    return msgspec.structs.asdict(report.as_written(source.id, [], Counter()))
