"""How often a build runs the engine: once, where the sums of all topics are up to date."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from pipeline.build import command
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
