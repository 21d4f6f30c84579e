"""python -m pipeline look FILE: what a table holds, and a proposal of how to read it.

FILE is a CSV, a Parquet table, a folder or zip of CSVs, or an SQLite or DuckDB database. Its head
is read; the proposal is added to sources.yaml as a comment, and changes nothing until you say so.
"""

from __future__ import annotations

import argparse
import os
from datetime import date
from pathlib import Path

from pipeline.config.load import DEFAULT
from pipeline.config.project import FormatFile
from pipeline.config.yaml_files import read_yaml, validate
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.ingest.databases import is_database
from pipeline.look.database_head import database_head
from pipeline.look.printed_proposal import next_steps, printed
from pipeline.look.proposal import proposed
from pipeline.look.proposed_yaml import appended, block, identity_of, indent_of, undecided
from pipeline.look.table_head import Head, head_of
from pipeline.terminal import say


def look(words: list[str]) -> None:
    """Print what was found, and add the proposal to the configuration's sources.yaml."""
    parser = argparse.ArgumentParser(prog="python -m pipeline look", description=__doc__)
    parser.add_argument("file", type=Path, help="CSV, Parquet, folder, zip or database")
    parser.add_argument("--table", help="of a database: the one with a row a delivery")
    parser.add_argument("--config", type=Path, default=DEFAULT)
    options = parser.parse_args(words)
    sources = options.config / "sources.yaml"
    made = proposed(_head(options.file, options.table), _match_types(options.config))
    text = _text(sources)
    path = _path(options.file)
    lines = block(
        made, path, identity_of(options.file, text), date.today().isoformat(), indent_of(text)
    )
    added, first, last = appended(text, lines)
    write_atomically(sources, added.encode("utf-8"))
    say(*printed(made, path), *next_steps(str(sources), first, last, undecided(lines)))


def _head(path: Path, table: str | None) -> Head:
    if path.exists() and is_database(path):
        return database_head(path, table)
    if table is not None:
        raise UserError(Problem(str(path), "no database; leave --table out"))
    return head_of(path)


def _path(path: Path) -> str:
    """As sources.yaml has it: from the project's folder where it is in it."""
    inside = os.path.relpath(path)
    return Path(path.absolute() if inside.startswith("..") else inside).as_posix()


def _match_types(config: Path) -> list[str]:
    """The types of matches that the formats name; none where there is no such file."""
    formats, _ = validate(read_yaml(config / "formats.yaml"), FormatFile)
    found = formats.formats.values() if formats else []
    return sorted({kind for form in found for kind in form.match_types})


def _text(sources: Path) -> str:
    """What is there, which must be readable as settings: else an addition might be lost in it."""
    read_yaml(sources)
    return sources.read_bytes().decode("utf-8")
