"""A source into a folder of our own tables, and what was written and left out."""

from __future__ import annotations

import os
from collections import Counter
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from pipeline.convert.refused import differing, kept_as_it_is, of_source
from pipeline.convert.write import TableWriters
from pipeline.errors import Problem, UserError
from pipeline.ingest.columns import STREAMED, Person, Tables, people_table
from pipeline.ingest.read import read_source
from pipeline.ingest.source_report import figures_of
from pipeline.ingest.stage import stop_if_asked
from pipeline.scratch import scratch

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
    to = Path(os.path.abspath(to))  # '.' too has a name
    check_empty(to)
    check_apart(source, to)
    with scratch(to) as aside:
        told, converted = _write(source, aside, form)
        _read_again(source, aside, told)
        if to.is_dir():
            to.rmdir()  # an empty one
        aside.replace(to)
    return converted


def check_empty(to: Path) -> None:
    """What somebody has in a folder is not written over."""
    if to.is_symlink():
        raise UserError(Problem(str(to), "is a link; name a new folder"))
    if to.exists() and (not to.is_dir() or any(to.iterdir())):
        raise UserError(Problem(str(to), "is there and not empty; name a new folder"))


def check_apart(source: Source, to: Path) -> None:
    """In the source's own folder the tables would be read as files of it."""
    if Path(source.path).resolve() in to.resolve().parents:
        message = f"is inside the source, {source.path}; name a folder beside it"
        raise UserError(Problem(str(to), message))


@dataclass
class _Told:
    """What some tables say in all: their figures, and everybody in them."""

    figures: Counter[str] = field(default_factory=Counter)
    people: set[Person] = field(default_factory=set)

    def add(self, tables: Tables) -> None:
        self.figures.update(figures_of(tables))
        self.people |= {Person(**row) for row in tables.people.to_pylist()}


def _write(source: Source, folder: Path, form: str) -> tuple[_Told, Converted]:
    told, problems = _Told(), list[Problem]()
    with TableWriters(folder, form) as writers:
        for found in read_source(source):
            for name in STREAMED:
                writers.write(name, getattr(found.tables, name))
            told.add(found.tables)
            problems += found.problems
        stop_if_asked(source, problems, told.figures["matches"])
        writers.write("people", people_table(told.people))
    return told, Converted(writers.rows, problems)


def _read_again(source: Source, folder: Path, written: _Told) -> None:
    """What was written can be read, and says the same; raises UserError if not."""
    own = source.model_copy(
        update={"path": str(folder), "layout": "ball-tables", "columns": None, "constants": {}}
    )
    again, problems = _Told(), list[Problem]()
    try:
        for found in read_source(own):
            again.add(found.tables)
            problems += found.problems
    except UserError as error:
        problems += error.problems
    if problems:
        raise UserError([*map(partial(of_source, source), problems), kept_as_it_is(source)])
    moved = differing(written.figures, again.figures, written.people ^ again.people)
    if moved:
        raise UserError([*(Problem(source.path, each) for each in moved), kept_as_it_is(source)])
