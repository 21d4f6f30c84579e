"""Which PDFs a build names, and what it says was left by topics, sources and versions of before."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from pipeline.build import command
from pipeline.build.leftovers import briefs, leftovers, told
from pipeline.doctor.checks import data
from pipeline.topic_files import CHECK
from tests.conftest import ROOT


@pytest.fixture()
def output(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo's configuration, and empty files where outputs of three topics would be."""
    shutil.copytree(ROOT / "config", tmp_path / "config")
    for name in ("demo_data", "templates"):
        (tmp_path / name).symlink_to(ROOT / name)
    monkeypatch.chdir(tmp_path)
    output = Path("output")
    for name in ("long-grass", "sea-air", "who-paid"):
        touched(output / name / "brief.pdf")
    for name in ("batches.json", "people.parquet", "report.json", "batches/1/deliveries.parquet"):
        touched(output / "data" / "tidewater" / name)
    touched(output / "archive" / "gone" / "1" / "data" / "brief.pdf")
    touched(output / "archive" / "brief.pdf")
    return output


def touched(path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.touch()


def names(paths: list[Path]) -> list[str]:
    return [path.as_posix() for path in paths]


def test_a_topic_that_is_no_more_is_not_listed_and_is_told(output: Path):
    touched(output / "old-topic" / "brief.pdf")
    listed = [f"output/{name}/brief.pdf" for name in ("long-grass", "sea-air", "who-paid")]
    assert names(briefs(Path("config"), output)) == listed
    assert names(leftovers(Path("config"), output)) == ["output/old-topic"]
    assert told(Path("config"), output).endswith("to delete when you like: output/old-topic")
    said = {each.name: each.what for each in data(Path("config"), output)}
    assert said["briefs"] == "long-grass, sea-air, who-paid"
    assert "output/old-topic" in said["outputs"]


def test_only_topics_of_the_projects_list_are_current(output: Path):
    settings = Path("config/project.yaml")
    text = settings.read_text("utf-8")
    assert "topics: all " in text
    settings.write_text(text.replace("topics: all ", "topics: [sea-air] #"), "utf-8")
    assert names(briefs(Path("config"), output)) == ["output/sea-air/brief.pdf"]
    (output / "sea-air" / "brief.pdf").unlink()
    assert briefs(Path("config"), output) == []
    assert leftovers(Path("config"), output) == []  # they are asked no more, and still there
    Path("config/topics/long-grass.yaml").unlink()
    assert names(leftovers(Path("config"), output)) == ["output/long-grass"]


def test_tables_of_an_older_shape_and_of_sources_that_are_no_more_are_told(output: Path):
    touched(output / "data" / "tidewater" / "deliveries.parquet")
    touched(output / "data" / "gone" / "report.json")
    assert names(leftovers(Path("config"), output)) == [
        "output/data/gone",
        "output/data/tidewater/deliveries.parquet",
    ]


def test_the_check_of_a_script_that_is_gone_is_told(output: Path):
    touched(output / "sea-air" / "script-check.html")
    touched(Path("config/topics/sea-air.script.txt"))
    assert leftovers(Path("config"), output) == []
    Path("config/topics/sea-air.script.txt").unlink()
    assert names(leftovers(Path("config"), output)) == ["output/sea-air/script-check.html"]


@pytest.mark.parametrize("asked", [[], ["sea-air"], ["--briefs"]])
def test_every_build_says_what_the_check_of_a_script_that_is_gone_left(
    output: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    asked: list[str],
):
    for name in CHECK:
        touched(output / "sea-air" / name)
    touched(Path("Snakefile"))
    monkeypatch.setattr(command, "_run", lambda *_: None)
    command.build(asked)
    told_of = capsys.readouterr()
    assert all(f"output/sea-air/{name}" in told_of.err for name in CHECK)
    assert ("brief.pdf" in told_of.out) == ("--briefs" in asked)
    touched(Path("config/topics/sea-air.vtt"))
    command.build(asked)
    assert capsys.readouterr().err == ""


def test_what_somebody_else_put_there_is_none_of_it(output: Path):
    touched(output / "notes" / "mine.txt")
    touched(output / "data" / "mine" / "notes.csv")
    touched(output / ".made" / "shelf.json")
    touched(output / "report.html")
    assert leftovers(Path("config"), output) == []
    assert told(Path("config"), output) == ""
    assert "outputs" not in {each.name for each in data(Path("config"), output)}
