"""What is done by hand: a topic of one's own, and the doctor."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

from pipeline.commands import COMMANDS
from pipeline.config.load import load
from pipeline.doctor import checks
from pipeline.doctor.command import doctor
from pipeline.errors import UserError
from pipeline.new_topic.command import topic
from pipeline.shelf.stage import shelf
from tests.conftest import ROOT
from tests.fact_makers import archive_facts, edition

pytestmark = pytest.mark.slow


@pytest.fixture()
def project(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The built demo's configuration and data, to be changed."""
    for name in ("config", "templates"):
        shutil.copytree(built / name, tmp_path / name)
    for name in ("Snakefile", "requirements.lock"):
        shutil.copy(built / name, tmp_path / name)
    (tmp_path / "demo_data").symlink_to(built / "demo_data")
    shutil.copytree(built / "output" / "data", tmp_path / "output" / "data")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_new_topic_is_one_as_it_is(project: Path, capsys: pytest.CaptureFixture[str]):
    """tests/test_readme.py builds it, too."""
    topic(["my-own"])
    assert ".venv/bin/snakemake my-own" in capsys.readouterr().out
    text = (project / "config" / "topics" / "my-own.yaml").read_text("utf-8")
    assert text.startswith("# yaml-language-server: $schema=../schema/topic.json\n")
    assert load("config", only="my-own").topics["my-own"].title == "My own"
    with pytest.raises(UserError, match="it is there already; choose another name"):
        topic(["my-own"])


def test_a_topic_needs_a_name_and_data(project: Path):
    with pytest.raises(UserError, match="a topic's name has small letters"):
        topic(["My Own"])
    with pytest.raises(UserError, match="the data are not read yet; run make brief first"):
        topic(["another", "--output", "nowhere"])
    assert not (project / "config" / "topics" / "another.yaml").exists()


def test_the_doctor_finds_the_demo_well(project: Path, capsys: pytest.CaptureFixture[str]):
    doctor([])
    said = capsys.readouterr().out
    assert "MEND" not in said and "PDF libraries: pango and harfbuzz load" in said
    assert "configuration: 3 topics" in said


def test_the_doctor_says_what_to_do(project: Path, capsys, monkeypatch):
    theme = project / "config" / "theme.yaml"
    theme.write_text(theme.read_text("utf-8").replace("Archivo-Medium", "Archivo-Thin"), "utf-8")
    monkeypatch.setattr(checks, "LEAST_SPACE", 1e9)
    monkeypatch.setattr(checks, "_locked", lambda: {"duckdb": "0.0.1"})
    with pytest.raises(SystemExit):
        doctor([])
    said = [line for line in capsys.readouterr().out.splitlines() if line.startswith("MEND")]
    assert [line.split(":")[0] for line in said] == [
        "MEND  duckdb",
        "MEND  configuration",
        "MEND  space",
    ]
    assert "the lock has 0.0.1: delete .venv and run make brief" in said[0]
    assert "no file 'templates/fonts/Archivo-Thin.ttf'" in said[1]


def test_a_library_that_is_missing_is_named(project: Path, monkeypatch):
    monkeypatch.setattr(checks, "LIBRARIES", ("no-such-library",))
    first = next(checks.libraries(Path("config"), Path("output")))
    assert not first.well and first.mend == "run make brief, which sets up .venv"


def test_every_command_has_its_line_of_help():
    command = [sys.executable, "-m", "pipeline", "--help"]
    said = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    assert len(COMMANDS) == 15
    for name, module in COMMANDS.items():
        assert f"\n{name} " in said
        assert callable(getattr(import_module(module), name.replace("-", "_")))


@pytest.mark.parametrize("words", [[], ["TOPIC=nosuch"]])
def test_archive_without_a_topic_lists_them(project: Path, words: list[str]):
    shutil.copy(ROOT / "Makefile", project)
    (project / ".venv").mkdir()
    (project / ".venv" / "ready").touch()
    command = ["make", "archive", *words]
    done = subprocess.run(command, cwd=project, capture_output=True, text=True, check=False)
    assert done.returncode and "make archive TOPIC=NAME; there are:" in done.stdout
    assert "sea-air" in done.stdout.split()


def test_the_shelf_links_to_what_is_there(built: Path, tmp_path: Path):
    page = (built / "output" / "index.html").read_text("utf-8")
    links = re.findall(r'href="([^"#]+)"', page)
    assert len(links) == 3 * 6 + 1
    for link in links:
        assert (built / "output" / link).is_file(), link
    for title in ("Did the long grass rescue the spinner?", "Who paid for the long grass?"):
        assert title in page
    assert "Archive" not in page and "http" not in page


def test_the_shelf_lists_editions_newest_first(built: Path, tmp_path: Path):
    for name in ("long-grass", "sea-air"):
        (tmp_path / name).mkdir()
        shutil.copy(built / "output" / name / "summary.json", tmp_path / name)
        for number in (1, 2):
            archived = archive_facts(tmp_path / "archive", edition(topic=name, edition=number))
            shutil.copy(tmp_path / name / "summary.json", archived / "data")
    page = shelf(tmp_path, ["long-grass", "sea-air"], "Us")
    assert page.index("edition 2, 2026-11-25") < page.index("edition 1, 2026-11-25")
    assert "archive/sea-air/1/data/brief.pdf" in page
    assert page.count("<summary>1 earlier edition</summary>") == 2  # the newest is told in full
    with pytest.raises(UserError, match="no such brief; run make brief"):
        shelf(tmp_path, ["nothing"], "Us")
