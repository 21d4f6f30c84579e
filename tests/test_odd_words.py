"""Commands with words that mean nothing: a clear line, never a traceback, and nothing written."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from pipeline.commands import COMMANDS, run
from pipeline.errors import UserError, run_stage
from pipeline.preview.serve import Site
from tests.conftest import ROOT

WORDS = (
    *("", " ", ".", "..", "/", "../x", "a file", "/nowhere", "a\x1b[2Jb", "x" * 5000, "a\nb", "*"),
    *("sea-air", "sea-air/1", "sea-air/999", "sea-air/", "coast.economy.pace", "\udcff", "%s", "["),
)
TOPIC = "sea-air"
WORDLESS = ("doctor", "grounds", "look")  # they take no name: none, or any path


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(ROOT / "config", tmp_path / "config")
    (tmp_path / "a file").write_text("x", "utf-8")
    for name in ("demo_data", "templates"):
        (tmp_path / name).symlink_to(ROOT / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("name", [name for name in COMMANDS if name not in WORDLESS])
def test_a_word_that_is_nothing(project: Path, name: str, capsys: pytest.CaptureFixture[str]):
    before = sorted(project.rglob("*"))
    more = {"preview": ["--once"], "convert": ["--to", "there"]}.get(name, [])
    for word in WORDS:
        asks = ["--keep"] if (name, word) == ("script", TOPIC) else more  # it has none to tell of
        with pytest.raises(SystemExit) as ended:
            run_stage(lambda word=word, asks=asks: run(name, [word, *asks]))
        assert ended.value.code == 1, word
        (line, *others) = capsys.readouterr().err.splitlines()
        assert all(each.isprintable() and len(each) <= 300 for each in (line, *others)), word
    assert sorted(project.rglob("*")) == before


@pytest.mark.parametrize("option", ["--config", "--output"])
@pytest.mark.parametrize("word", WORDS)
def test_a_folder_that_is_none(
    project: Path, option: str, word: str, capsys: pytest.CaptureFixture[str]
):
    for name in ("explain", "correction", "compare", "topic"):
        with pytest.raises(SystemExit) as ended:
            run_stage(lambda name=name: run(name, ["xx", option, word]))
        assert ended.value.code == 1
        assert all(len(line) <= 300 for line in capsys.readouterr().err.splitlines())


@pytest.mark.parametrize("word", [*WORDS, "previw"])
def test_a_command_that_is_none(word: str):
    with pytest.raises(UserError, match="no command"):
        run(word, [])


@pytest.mark.parametrize("port", [-1, 65_536, 99_999])
def test_a_port_that_is_none(tmp_path: Path, port: int):
    with pytest.raises(OSError, match="no number of a port"):
        Site(tmp_path / "page.html", port)
