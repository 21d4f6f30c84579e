"""A mistake at random in one of the demo's configuration files, and what is said of it."""

from __future__ import annotations

import os
import random
import shutil
from contextlib import chdir
from pathlib import Path

from pipeline.config import views
from pipeline.config.load import load
from pipeline.errors import Problem, UserError, told
from pipeline.terminal import HARMFUL, LONGEST
from tests.conftest import ROOT
from tests.faults.setting_changes import mutated
from tests.faults.where import cause

TOPICS = ("long-grass", "sea-air", "who-paid")
FILES = (
    *(f"{name}.yaml" for name in ("project", "sources", "measures", "formats", "theme")),
    *(f"topics/{name}.yaml" for name in TOPICS),
)


def try_one(rng: random.Random, folder: Path) -> str:
    """'ok', 'refused', or 'other: TYPE at FILE:FUNCTION' of what came instead of a clear line.

    `folder` is made a project on first use, and is whole again afterwards.
    """
    config = _project(folder)
    name = rng.choice(FILES)
    path = config / name
    before = path.read_bytes()
    topic = Path(name).stem if name.startswith("topics/") else rng.choice(TOPICS)
    try:
        path.write_bytes(mutated(rng, before))
        with chdir(folder):
            return _loaded(Path("config"), topic)
    finally:
        path.write_bytes(before)


def _project(folder: Path) -> Path:
    config = folder / "config"
    if not config.is_dir():
        shutil.copytree(ROOT / "config", config)
        for name in ("demo_data", "templates"):
            os.symlink(ROOT / name, folder / name)
    return config


def _loaded(config: Path, topic: str) -> str:
    try:
        found = load(config, only=topic)
        views.clean(found)
        for source in found.sources:
            views.ingest(found, source)
        for view in (views.metrics, views.significance, views.charts, views.brief):
            views.plain(view(found, topic))
    except UserError as error:
        return _clear(error)
    except Exception as error:
        return cause(error)
    return "ok"


def _clear(error: UserError) -> str:
    """'refused', or what is not clear about it."""
    for problem, line in zip(error.problems, told(error), strict=False):
        if wrong := _unclear(problem, line):
            return f"other: {wrong}"
    return "refused" if error.problems else "other: no problem"


def _unclear(problem: Problem, line: str) -> str | None:
    if "\n" in line or HARMFUL.search(line):
        return "a line with what can't be seen"
    if len(line) > LONGEST:
        return f"a line of {len(line)} characters"
    if not problem.file.startswith("config"):
        return f"a problem of {problem.file[:40]!r}"
    if problem.line is None and problem.file.endswith(".yaml"):
        return f"no line in: {problem.message[:60]}"
    return None
