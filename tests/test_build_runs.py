"""How often a build runs the engine: once, where the sums of all topics are up to date."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from pipeline.build import command
from pipeline.config.load import load
from pipeline.records import state
from pipeline.records.steps import Steps
from tests.small_project import TOPIC_FILE, edit

pytestmark = pytest.mark.slow
FIRST = ["--until", "metrics"]


@pytest.fixture()
def project(small_built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A built project as the working directory."""
    folder = Path(shutil.copytree(small_built, tmp_path / "project"))
    monkeypatch.chdir(folder)
    return folder


def nothing(project: Path) -> None:
    pass


def words(project: Path) -> None:
    edit(project / TOPIC_FILE, "Spin paid for it", "It was the spinners")


def window(project: Path) -> None:
    edit(project / TOPIC_FILE, "before: 3 seasons", "before: 2 seasons")


def sheet(project: Path) -> None:
    edit(project / "demo_data/players.csv", "id-cat,Cat Moor,,,", "id-cat,Cat Moor,left,,")


def lost_sums(project: Path) -> None:
    (project / "output" / "hail" / "tallies.parquet").unlink()


def lost_record(project: Path) -> None:
    (project / "output" / "data" / ".made" / "clean.json").unlink()


def mistake(project: Path) -> None:
    """Of which the engine's own run tells."""
    edit(project / TOPIC_FILE, "title:", "titel:")


@pytest.mark.parametrize(
    ("change", "first"),
    [
        (nothing, False),
        (words, False),
        (window, True),
        (sheet, True),
        (lost_sums, True),
        (lost_record, True),
        (mistake, True),
    ],
)
def test_data_go_first_only_where_sums_are_to_be_made(
    project: Path, monkeypatch: pytest.MonkeyPatch, change: Callable[[Path], None], first: bool
):
    runs: list[list[str]] = []
    monkeypatch.setattr(command, "_run", lambda *words: runs.append(list(words)))
    change(project)
    command.build(["--cores", "1"])
    assert runs == [
        *([["--cores", "1", *FIRST, "--"]] if first else []),
        ["--cores", "1", "--"],
    ]


def test_a_script_alone_is_checked_first(project: Path, monkeypatch: pytest.MonkeyPatch):
    runs: list[list[str]] = []
    monkeypatch.setattr(command, "_run", lambda *words: runs.append(list(words)))
    said(project, "We looked at it again.")
    scripts = [step for step in Steps(load("config"), "output").all() if step.stage == "script"]
    left = [state.Stale(step, "other", "") for step in scripts]
    monkeypatch.setattr(command, "stale", lambda *_: left)
    command.build(["--cores", "1"])
    assert runs == [["--cores", "1", "--until", "script", "--"], ["--cores", "1", "--"]]


def test_a_script_whose_check_says_the_same_in_short_leaves_the_brief(project: Path):
    said(project, "We looked at it again.")
    command.build(["--cores", "1"])
    out = project / "output" / "hail"
    before = {name: (out / name).stat().st_mtime_ns for name in ("brief.pdf", "brief.html")}
    page = (out / "script-check.html").read_bytes()
    said(project, "We looked at all of it again.")
    command.build(["--cores", "1"])
    assert (out / "script-check.html").read_bytes() != page
    assert {name: (out / name).stat().st_mtime_ns for name in before} == before
    assert state.stale(Steps(load("config"), "output").all(), "output") == []


def said(project: Path, text: str) -> None:
    (project / TOPIC_FILE).with_name("hail.script.txt").write_text(text, "utf-8")
