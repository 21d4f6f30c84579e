"""Hostile and odd data files by chance, read as the stages read them: read, refused, or a fault.

A refusal is a list of problems, each one line without control characters that names the file.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

from pipeline.clean.corrections import read_corrections
from pipeline.clean.merges import read_merges
from pipeline.clean.sheets import grounds_table, players_table, read_grounds, read_players
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.config.project import Project
from pipeline.contracts.errata import Wording
from pipeline.errata.captions import in_captions
from pipeline.errors import Problem, UserError
from pipeline.hashes import content_hash
from pipeline.ingest.stage import ingest
from tests.builders import COLUMNS, FORMATS, read_all, source
from tests.faults import containers, made, own, tables
from tests.faults.where import cause

CLEANED = 60  # one case in so many goes on to the clean tables
WORDINGS = [Wording(old="four and a half", new="five", right=False, bare=False, of="")]
Read = Callable[[], list[Problem]]


def try_one(area: str, rng: Random, folder: Path) -> str:
    """'ok', 'refused', or 'other: ' with the fault, of one file made anew in the folder."""
    folder = folder / "case"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    read = AREAS[area](rng, folder)
    try:
        problems = read()
    except UserError as error:
        problems = error.problems
    except Exception as error:
        return cause(error)
    unclear = [line for line in map(str, problems) if not _is_clear(line, folder)]
    if unclear:
        return f"other: unclear line {unclear[0][:120]!r}"
    return "refused" if problems else "ok"


def _is_clear(line: str, folder: Path) -> bool:
    return line.isprintable() and str(folder) in line


def _source(path: Path, rng: Random, folder: Path, layout: str, **more: Any) -> Read:
    """Read it, hash it as the workflow does, and now and then clean what it gave."""
    cleaned = rng.randrange(CLEANED) == 0
    given = source(path, layout, on_error="quarantine", **more)

    def read() -> list[Problem]:
        content_hash(given.path)
        if not cleaned:
            return read_all(given)[1]
        ingest(given, folder / "data" / given.id)
        config = Config(folder, Project(title="test"), {given.id: given}, {}, FORMATS)
        clean(views.clean(config), folder / "data")
        return []

    return read


def _match_json(rng: Random, folder: Path) -> Read:
    path = folder / "m1.json"
    path.write_bytes(made.match_json(rng))
    return _source(path, rng, folder, "match-json")


def _delivery_csv(rng: Random, folder: Path) -> Read:
    path = made.delivery_csv(rng, folder)
    return _source(path, rng, folder, "delivery-csv")


def _table(rng: Random, folder: Path) -> Read:
    path = tables.table(rng, folder)
    more = tables.columns(rng, COLUMNS)
    return _source(path, rng, folder, "table", columns=more)


def _ball_tables(rng: Random, folder: Path) -> Read:
    return _source(own.own(rng, folder), rng, folder, "ball-tables")


def _zip(rng: Random, folder: Path) -> Read:
    path = containers.container(rng, folder)
    return _source(path, rng, folder, rng.choice((*["match-json"] * 3, "delivery-csv")))


def _sheets(rng: Random, folder: Path) -> Read:
    """Sheets as they are read; now and then with the data that they are of."""
    paths = made.sheets(rng, folder)
    if rng.randrange(CLEANED) == 0:
        return lambda: _with_data(folder, paths)
    name = rng.choice(sorted(paths))

    def read() -> list[Problem]:
        if name == "players":
            players_table([row for _, row in read_players(str(paths[name]))])
        elif name == "grounds":
            grounds_table([row for _, row in read_grounds(str(paths[name]))])
        elif name == "people":
            read_merges(str(paths[name]))
        else:
            [each.record() for each in read_corrections(str(paths[name]))]
        return []

    return read


def _with_data(folder: Path, paths: dict[str, Path]) -> list[Problem]:
    given = source(containers.good_zip(folder))
    ingest(given, folder / "data" / given.id)
    project = Project(title="test", **{name: str(path) for name, path in paths.items()})
    config = Config(folder, project, {given.id: given}, {}, FORMATS)
    clean(views.clean(config), folder / "data")
    return []


def _captions(rng: Random, folder: Path) -> Read:
    path = made.captions(rng, folder)

    def read() -> list[Problem]:
        in_captions(path, WORDINGS, "spin in the middle overs")
        return []

    return read


AREAS: dict[str, Callable[[Random, Path], Read]] = {
    "match-json": _match_json,
    "delivery-csv": _delivery_csv,
    "table": _table,
    "ball-tables": _ball_tables,
    "zip": _zip,
    "sheets and corrections": _sheets,
    "captions and scripts": _captions,
}
