"""Editions that were changed: every change is seen, and a stranger's edition ends in one line."""

from __future__ import annotations

import contextlib
import io
import os
import shutil
import stat
from collections.abc import Callable
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from pipeline.archive.bag import seal
from pipeline.compare.command import printed
from pipeline.config.load import load
from pipeline.contracts.facts import Charts, Facts
from pipeline.contracts.files import as_json
from pipeline.contracts.selection import Fixes
from pipeline.editions.archived_views import archived_side
from pipeline.editions.difference import compared
from pipeline.editions.findings import read_findings
from pipeline.editions.reading import (
    read_around,
    read_charts,
    read_inputs,
    read_settings,
    read_summary,
)
from pipeline.editions.sides import read_facts, read_fixes
from pipeline.editions.store import read_edition
from pipeline.errors import UserError
from pipeline.rebuild.inside import check_inside
from pipeline.rebuild.lay_out import lay_out
from pipeline.verify.command import verify
from tests.faults import bag_changes as changes
from tests.faults.where import cause

OLD = Path(__file__).parents[1] / "old_edition"
SEEN = (changes.change_bytes, changes.change_form, changes.change_names)
OF_TAGS = (changes.change_declared, changes.change_info, changes.change_manifest)
OF_PAYLOAD = (changes.change_shape, changes.change_shape, changes.change_settings)
State = dict[str, tuple[int, bytes]]


def try_one(rng: Random, folder: Path) -> str:
    """Change an edition inside the folder, then verify it, compare it and lay it out.

    'ok' (whole, or the change was seen), 'refused', or 'other: ' with what came instead.
    """
    with TemporaryDirectory(dir=folder) as made, contextlib.redirect_stdout(io.StringIO()):
        try:
            return _tried(rng, _put(rng.random() < 0.5, Path(made) / "bag"))
        except Exception as error:
            return cause(error)


def _tried(rng: Random, bag: Path) -> str:
    match rng.randrange(5):
        case 0 | 1 | 2:
            return _seen(rng, bag)
        case 3:
            rng.choice(OF_TAGS)(rng, bag)
            changes.seal_again(bag, payload=False)
            return _refused(lambda: verify([str(bag)]))
        case _:
            rng.choice(OF_PAYLOAD)(rng, bag)
            changes.seal_again(bag, payload=True)
            return _read(rng, bag)


def _seen(rng: Random, bag: Path) -> str:
    """A change that is not sealed again has to be seen."""
    before = _state(bag)
    rng.choice(SEEN)(rng, bag)
    changed = _state(bag) != before
    refused = _refused(lambda: verify([str(bag)])) == "refused"
    if changed != refused:
        return "other: unseen change" if changed else "other: a whole edition is refused"
    return "ok"


def _state(folder: Path) -> State:
    """Kind and content of all that is in a folder; no link is followed."""
    found = {}
    for path in folder.rglob("*"):
        mode = path.lstat().st_mode
        content = path.read_bytes() if stat.S_ISREG(mode) else b""
        content = os.readlink(path).encode() if stat.S_ISLNK(mode) else content
        found[str(path.relative_to(folder))] = (stat.S_IFMT(mode), content)
    return found


def _read(rng: Random, bag: Path) -> str:
    """A stranger's edition, whole by its manifests, as compare and rebuild read it."""
    verify([str(bag)])
    if rng.random() < 0.4:
        mine = _put(True, bag.parent / "mine")
        return _refused(lambda: printed(compared(archived_side(mine), archived_side(bag))))
    return _refused(lambda: _laid_out(bag / "data", bag.parent / "work"))


def _laid_out(payload: Path, work: Path) -> None:
    """What a rebuild does before its first stage."""
    edition = read_edition(payload.parent)
    read_around(payload, "")
    inputs = read_inputs(payload, "")
    read_charts(payload, "")
    read_findings(payload, "")
    work.mkdir()
    nowhere = work / "nothing"
    with contextlib.suppress(UserError):
        lay_out(payload, inputs, nowhere, work)  # it lacks the match files
    with contextlib.chdir(work):
        check_inside(Path("config"))
        load(Path("config"), only=edition.topic)


def _refused(asked: Callable[[], object]) -> str:
    try:
        asked()
    except UserError as error:
        lines = str(error)
        lines.encode()
        assert "root:" not in lines, "a file of the machine is printed"
        assert len(lines.splitlines()) == len(error.problems), "one line a problem"
        return "refused"
    return "ok"


def _put(as_of_old: bool, folder: Path) -> Path:
    """A sealed edition in a folder that can be written to."""
    for name, content in sealed(as_of_old).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    return folder


@cache
def sealed(as_of_old: bool) -> dict[str, bytes]:
    """A small edition, sealed once: as an older version wrote it, or in today's format."""
    with TemporaryDirectory() as folder:
        made = Path(folder) / "1"
        shutil.copytree(OLD / "data", made)
        edition = read_edition(OLD)
        if not as_of_old:
            _in_todays_format(OLD / "data", made)
        seal(made, edition)
        inside = (path for path in made.rglob("*") if path.is_file())
        return {path.relative_to(made).as_posix(): path.read_bytes() for path in inside}


def _in_todays_format(old: Path, made: Path) -> None:
    written = {
        "edition.json": read_edition(old.parent),
        "around.json": read_around(old, ""),
        "inputs.json": read_inputs(old, ""),
        "summary.json": read_summary(old, ""),
        "findings.json": read_findings(old, ""),
        "facts.json": Facts(facts=read_facts(old, "")),
        "corrections.json": Fixes(corrections=read_fixes(old, "")),
        "charts/charts.json": Charts(charts=read_charts(old, "")),
        "config/merged.json": read_settings(old, ""),
    }
    for name, content in written.items():
        (made / name).write_text(as_json(content), "utf-8")
