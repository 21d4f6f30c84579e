"""A topic that is like another, built: what the liked file moves, what an edition of it holds."""

from __future__ import annotations

import re
import shutil
from importlib import import_module
from pathlib import Path

import pytest

from pipeline.config import views
from pipeline.config.load import load
from pipeline.editions.reading import read_facts
from pipeline.errors import UserError
from pipeline.hashes import value_hash
from pipeline.preview.command import _saved
from pipeline.preview.remake import Remake
from pipeline.records.state import stale
from pipeline.records.steps import Steps
from pipeline.run import make_topic
from pipeline.verify.check import check
from tests.conftest import snakemake
from tests.editions import recorded
from tests.small_project import TOPIC, TOPIC_FILE, edit, typed

pytestmark = pytest.mark.slow
OWN = "rain"
OWN_FILE = f"config/topics/{OWN}.yaml"
TEXT = f"""like: {TOPIC}
title: The rain
data: {{competition: Shingle Cup}}
event: {{name: the rain}}
"""

STAGES = ("metrics", "significance", "charts", "brief")  # of a topic without a script


@pytest.fixture(scope="module")
def home(small_built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project with a topic and one that is like it, both built, and the second archived."""
    folder = Path(shutil.copytree(small_built, tmp_path_factory.mktemp("like") / "project"))
    (folder / OWN_FILE).write_text(TEXT, "utf-8")
    for targets in (["all", f"archive_{OWN}"], ["all"]):  # then the brief that tells of its edition
        done = snakemake(folder, *targets)
        assert done.returncode == 0, done.stderr[-3000:]
    return folder


@pytest.fixture()
def here(home: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The same as the working directory."""
    monkeypatch.chdir(home)
    return home


def replaced(folder: Path, file: str, text: str) -> None:
    (folder / file).write_text(text, "utf-8")


def test_both_are_built_and_their_numbers_have_the_same_ids(home: Path):
    own, other = (read_facts(home / "output" / topic, "") for topic in (OWN, TOPIC))
    ids = [{fact.id for fact in facts if fact.finding} for facts in (own, other)]
    assert "rate.run_rate.change" in ids[0] & ids[1]
    assert {fact.id: fact.value for fact in own} != {fact.id: fact.value for fact in other}
    shelf = (home / "output" / "index.html").read_text("utf-8")
    assert "The rain" in shelf and "A question" in shelf


def to_make() -> list[str]:
    """The steps that are not those of today's settings, in the working directory."""
    return [each.step.title for each in stale(Steps(load("config"), "output").all(), "output")]


def test_a_change_of_the_liked_file_makes_both_again_and_one_of_the_other_only_itself(
    here: Path,
):
    kept, own = (Path(file).read_text("utf-8") for file in (TOPIC_FILE, OWN_FILE))
    assert to_make() == []
    edit(Path(TOPIC_FILE), '"Spin paid for it"', '"Spin paid for all of it"')
    assert to_make() == [f"brief of {TOPIC}", f"brief of {OWN}"]
    replaced(here, TOPIC_FILE, f"# A comment.\n{kept}")
    assert to_make() == []
    edit(Path(OWN_FILE), "name: the rain", "name: the long rain")
    assert to_make() == [f"charts of {OWN}", f"brief of {OWN}"]
    replaced(here, TOPIC_FILE, kept)
    replaced(here, OWN_FILE, own)
    assert to_make() == []


def stage(monkeypatch: pytest.MonkeyPatch, view: str) -> None:
    """The significance of the topic as the workflow sends it off, with the hash of its settings."""
    words = ["--topic", OWN, "--out", f"output/{OWN}", "--record", "output/trial.json"]
    monkeypatch.setattr("sys.argv", ["significance", *words, "--view", view])
    import_module("pipeline.significance.__main__").main()


@pytest.mark.parametrize("file", [TOPIC_FILE, OWN_FILE])
def test_a_save_of_either_while_a_build_is_at_work_is_refused(
    here: Path, monkeypatch: pytest.MonkeyPatch, file: str
):
    view = value_hash(views.significance(load("config", only=OWN), OWN))
    kept = Path(file).read_text("utf-8")
    more = "also: [{name: the gale, date: 2018-01-01}]\n"
    replaced(here, file, kept + more)
    either = f"{OWN_FILE}: this file or {TOPIC_FILE} was changed while the build was at work"
    with pytest.raises(UserError, match=f"^{re.escape(either)}"):
        stage(monkeypatch, view)
    assert not Path("output/trial.json").exists()
    replaced(here, file, kept)
    stage(monkeypatch, view)
    Path("output/trial.json").unlink()


def test_a_number_of_it_is_explained(here: Path, capsys: pytest.CaptureFixture[str]):
    said = typed(capsys, "explain", "rate.run_rate.change", "--topic", OWN)
    assert "rate.run_rate.change" in said


def test_an_edition_holds_every_file_that_the_topic_was_made_of(home: Path):
    edition = home / "output" / "archive" / OWN / "1"
    assert check(edition).wrong == []
    kept = edition / "data" / "config" / "topics"
    assert sorted(path.name for path in kept.iterdir()) == [f"{TOPIC}.yaml", f"{OWN}.yaml"]
    assert (kept / f"{OWN}.yaml").read_text("utf-8") == TEXT


def test_it_is_made_again_from_the_edition_alone(here: Path, capsys: pytest.CaptureFixture[str]):
    """Though the liked file is gone by now."""
    kept = (here / TOPIC_FILE).read_text("utf-8")
    (here / TOPIC_FILE).unlink()
    try:
        assert "byte-identical" in typed(capsys, "rebuild", f"{OWN}/1")
        assert "whole" in typed(capsys, "verify", f"output/archive/{OWN}/1")
    finally:
        replaced(here, TOPIC_FILE, kept)


def test_a_save_of_either_is_seen_by_the_preview(here: Path):
    out = Path("output")
    remake = Remake(OWN, out / "preview" / OWN, out / "data", out / "archive")
    assert remake.update(load("config", only=OWN)) == list(STAGES)
    for file, old, new in (
        (TOPIC_FILE, "question: What happened?", "question: What did happen?"),
        (OWN_FILE, "title: The rain", "title: The long rain"),
    ):
        kept, before = Path(file).read_text("utf-8"), _saved(Path("config"))
        edit(Path(file), old, new)
        assert _saved(Path("config")) != before
        assert remake.update(load("config", only=OWN)) == ["brief"]
        assert new.partition(": ")[2] in (remake.out / "brief.html").read_text("utf-8")
        replaced(here, file, kept)


def test_a_liked_file_that_vanishes_stops_a_build_before_anything_is_made(here: Path, capsys):
    kept = (here / TOPIC_FILE).read_text("utf-8")
    (here / TOPIC_FILE).unlink()
    try:
        done = snakemake(here, OWN)
        assert done.returncode and f"{OWN_FILE}:1:7: like: no topic '{TOPIC}'" in done.stderr
        with pytest.raises(UserError, match="like: no topic"):
            typed(capsys, "preview", OWN, "--once")
    finally:
        replaced(here, TOPIC_FILE, kept)


def test_one_that_is_written_from_another_is_built_as_it_stands(here: Path, capsys):
    typed(capsys, "topic", "gale", "--from", OWN)
    config, out = load("config", only="gale"), Path("output")
    make_topic(config, "gale", out / "gale", out / "data")
    for step in Steps(config, out).topic("gale"):
        recorded(step, out)
    assert (out / "gale" / "brief.pdf").stat().st_size > 10_000
    assert to_make() == ["shelf"]
    edit(here / TOPIC_FILE, "finding: kinds.economy", "finding: rate")
    made_anew = {f"significance of {topic}" for topic in ("gale", OWN, TOPIC)}
    assert made_anew <= set(to_make())  # what is expected is a look
