"""A whole project of the untidy league's raw files and one short topic, built in seconds."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from pipeline.commands import run
from tests.builders import write_zip
from tests.conftest import copy_project
from tests.untidy import GROUNDS, HEAD, PLAYERS, matches

TOPIC = "hail"
BEATS = """headlines: [kinds.economy]
expected: [{say: "Spin paid for it", finding: kinds.economy, means: rises}]
frames: [light]
beats:
  - {id: rate, kind: trend, measure: run_rate}
  - {id: kinds, kind: before_after, measure: economy, where: {bowler_kind: spin}}
"""
DEMO = "demo_data/tidewater-shield.zip"
ARCHIVE = "demo_data/the scorer's file, é.zip"  # a name that a shell would take apart
TOPIC_FILE = f"config/topics/{TOPIC}.yaml"


def small_project(folder: Path) -> Path:
    """The folder, made with nothing built in it."""
    copy_project(folder)
    shutil.rmtree(folder / "config" / "topics")
    (folder / "config" / "topics").mkdir()
    (folder / TOPIC_FILE).write_text(HEAD + BEATS, "utf-8")
    (folder / DEMO).unlink()
    sources = folder / "config" / "sources.yaml"
    edit(sources, f"path: {DEMO}", f'path: "{ARCHIVE}"')
    edit(sources, "layout: ball-tables", "layout: match-json")
    write_zip(folder / ARCHIVE, {f"m{at}.json": one for at, one in enumerate(matches())})
    (folder / "demo_data" / "players.csv").write_text(PLAYERS, "utf-8")
    (folder / "demo_data" / "grounds.csv").write_text(GROUNDS, "utf-8")
    for name in ("corrections", "people"):
        sheet = folder / "config" / f"{name}.csv"
        sheet.write_text(sheet.read_text("utf-8").splitlines()[0] + "\n", "utf-8")
    return folder


def build_small_project(folder: Path) -> None:
    """The same, built as a user builds it: see the fixture `small_built`."""
    done = command(small_project(folder), "build")
    assert done.returncode == 0, done.stderr[-3000:]


def command(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """python -m pipeline with these words, in the folder."""
    call = [sys.executable, "-m", "pipeline", *words]
    return subprocess.run(call, cwd=folder, capture_output=True, text=True, check=False)


def typed(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What the same command prints when it is run in this process, in its working directory."""
    capsys.readouterr()
    run(words[0], list(words[1:]))
    return capsys.readouterr().out


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text, f"{path} has no {old!r}"
    path.write_text(text.replace(old, new, 1), "utf-8")


def outputs(folder: Path) -> dict[str, bytes]:
    """What was built, by its path below output/; without records, the archive and the shelf.

    The shelf also says which topics are not up to date.
    """
    out = folder / "output"
    files = [path for path in sorted(out.rglob("*")) if path.is_file()]
    shown = {str(path.relative_to(out)): path for path in files}
    return {
        name: path.read_bytes()
        for name, path in shown.items()
        if ".made/" not in name and not name.startswith(("archive/", "index.html"))
    }
