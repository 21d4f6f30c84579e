"""python -m pipeline topic NAME --from OTHER: a file of what differs, which runs as it stands."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.new_topic.command import topic
from pipeline.new_topic.held import Held, held
from pipeline.new_topic.like_another import SUGGESTED, _suggested
from tests.conftest import ROOT
from tests.golden.made import made
from tests.small_project import BEATS, edit
from tests.untidy import HEAD, untidy

OTHER = "hail"


@pytest.fixture(scope="module")
def league(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


@pytest.fixture()
def project(league: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project with one topic and clean tables of three competitions, to be changed."""
    for name in ("config", "output"):
        shutil.copytree(league / name, tmp_path / name)
    for name in ("demo_data", "templates"):
        (tmp_path / name).symlink_to(ROOT / name)
    for path in (tmp_path / "config" / "topics").glob("*.yaml"):
        path.unlink()
    monkeypatch.chdir(tmp_path)
    file(OTHER).write_text(HEAD + BEATS, "utf-8")
    return tmp_path


def file(name: str) -> Path:
    return Path("config") / "topics" / f"{name}.yaml"


def uncommented(name: str) -> None:
    """Every hint taken as it is."""
    head, mark, hints = file(name).read_text("utf-8").partition("and change them.\n")
    assert mark
    lines = [line.removeprefix("# ") for line in hints.splitlines()]
    file(name).write_text(f"{head}{mark}{chr(10).join(lines)}\n", "utf-8")


def test_it_is_like_the_other_and_makes_its_numbers_as_it_stands(project: Path, capsys):
    topic(["rain", "--from", OTHER])
    assert ".venv/bin/snakemake rain" in capsys.readouterr().out
    text = file("rain").read_text("utf-8")
    assert text.startswith("# yaml-language-server: $schema=../schema/topic.json\n")
    kept = [line for line in text.splitlines() if line and not line.startswith("#")]
    assert kept == ["like: hail", 'title: "Rain"   # change it: every topic has a title of its own']
    topics = load("config").topics
    same = [topics[name].model_dump(exclude={"title"}) for name in ("rain", OTHER)]
    assert same[0] == same[1]
    found = made(project, "rain", project / "output" / "rain").findings.findings
    assert "kinds.economy" in {each.id for each in found}


def test_its_hints_are_what_the_data_hold_and_hold_as_they_are(project: Path):
    topic(["rain", "--from", OTHER])
    text = file("rain").read_text("utf-8")
    assert '#   competition: "Shingle Cup"   # the data hold "Pebble Cup" (' in text
    assert '"Sand Cup" (' in text and '#   gender: "female"   # the data hold "female" (' in text
    uncommented("rain")
    own = load("config").topics["rain"]
    assert own.data.competition == ["Shingle Cup"] and own.data.gender == "female"
    assert own.event == load("config").topics[OTHER].event
    assert made(project, "rain", project / "output" / "rain").findings.findings


def test_a_topic_without_an_event_or_filters_has_hints_that_hold_too(project: Path):
    groups = "  - {id: apart, kind: groups, measure: run_rate, between: {innings: [1, 2]}}\n"
    file("plain").write_text(
        'title: "Plain: \\"so\\""\nquestion: "What: #1?"\ndata: {format: one-day}\n'
        f"beats:\n{groups}",
        "utf-8",
    )
    topic(["other", "--from", "plain"])
    assert "event" not in file("other").read_text("utf-8")
    uncommented("other")
    own = load("config").topics["other"]
    assert own.question == "What: #1?" and own.data.competition == ["Pebble Cup"]


def test_a_title_of_its_own_whatever_its_name(project: Path):
    edit(file(OTHER), "title: A question", "title: The Rain")
    topic(["the-rain", "--from", OTHER])
    topic(["null", "--from", OTHER])
    titles = {name: one.title for name, one in load("config").topics.items()}
    assert titles == {OTHER: "The Rain", "the-rain": "The rain again", "null": "Null"}
    topic(["true"])
    assert load("config").topics["true"].title == "True"


def test_one_that_is_like_another_may_be_taken_and_one_further_not(project: Path):
    topic(["rain", "--from", OTHER])
    topic(["sleet", "--from", "rain"])
    assert load("config").like["sleet"] == ("rain", OTHER)
    with pytest.raises(UserError, match=r"sleet\.yaml.*'sleet' is like 'rain', .*; take 'rain'"):
        topic(["snow", "--from", "sleet"])
    assert not file("snow").exists()


@pytest.mark.parametrize("name", ["My Own", "../rain", "data", "", "ráin", "rain.yaml"])
def test_odd_names_are_refused(project: Path, name: str):
    with pytest.raises(UserError, match=r"a topic's name has small|a folder of output/ has this"):
        topic([name, "--from", OTHER])
    with pytest.raises(UserError, match="no topic '"):
        topic(["rain", "--from", name or "nobody"])
    assert [path.name for path in Path("config/topics").iterdir()] == [f"{OTHER}.yaml"]


def test_it_never_overwrites(project: Path):
    topic(["rain", "--from", OTHER])
    file("rain").write_text("mine", "utf-8")
    file("mist").symlink_to("nowhere.yaml")
    for name in ("rain", "mist"):
        with pytest.raises(UserError, match="it is there already; choose another name"):
            topic([name, "--from", OTHER])
    assert file("rain").read_text("utf-8") == "mine" and file("mist").is_symlink()


def test_a_mistake_of_the_other_and_data_that_are_not_read_are_told(project: Path):
    with pytest.raises(UserError, match="the data are not read yet; run make brief first"):
        topic(["rain", "--from", OTHER, "--output", "nowhere"])
    edit(file(OTHER), "kind: trend", "kind: trnd")
    with pytest.raises(UserError, match=r"hail\.yaml:9:.*'trnd' is not valid here"):
        topic(["rain", "--from", OTHER])
    assert not file("rain").exists()


def test_where_topics_are_listed_it_says_to_add_it(project: Path, capsys):
    edit(Path("config/project.yaml"), "topics: all", f"topics: [{OTHER}]")
    topic(["rain", "--from", OTHER])
    assert "add rain to the topics in config/project.yaml" in capsys.readouterr().out


def test_of_many_values_the_first_are_suggested_and_the_rest_counted():
    there = [Held(f"Cup {at}", 20 - at) for at in range(SUGGESTED + 2)]
    (line,) = _suggested("competition", ["Cup 0"], there)
    assert line.startswith('  competition: "Cup 1"   # the data hold "Cup 0" (20 matches), ')
    assert line.endswith('"Cup 5" (15 matches), 2 more')
    assert _suggested("gender", ["male"], []) == []


def test_values_are_counted_among_the_matches_that_are_asked_for(project: Path):
    matches = Path("output/data/matches.parquet")
    every = held(matches, "competition", {})
    assert [one.value for one in every] == ["Pebble Cup", "Shingle Cup", "Sand Cup"]
    assert [one.matches for one in every] == sorted((one.matches for one in every), reverse=True)
    assert held(matches, "gender", {"competition": ["Sand Cup"]}) == [
        Held("female", every[2].matches)
    ]
    assert held(matches, "gender", {"competition": ["It's none"]}) == []


def test_make_takes_the_name_of_the_other(tmp_path: Path):
    shutil.copy(ROOT / "Makefile", tmp_path)
    for name in ("requirements.lock", ".venv/ready"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).touch()
    command = ["make", "--no-print-directory", "-n", "topic", "NAME=rain"]
    for more, words in ((["FROM=hail"], '"rain" --from "hail"'), ([], '"rain"')):
        done = subprocess.run(
            [*command, *more], cwd=tmp_path, capture_output=True, text=True, check=True
        )
        assert done.stdout.strip() == f".venv/bin/python -m pipeline topic {words}"
