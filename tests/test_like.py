"""A topic that is like another: what is laid over what, where mistakes stand, what is refused."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from ruamel.yaml import YAML

from pipeline.config import like, views
from pipeline.config.load import Config, load
from pipeline.config.placed import located
from pipeline.config.schemas import schema
from pipeline.config.topic import Topic
from pipeline.contracts.errata import CitedBy
from pipeline.doctor.checks import configuration
from pipeline.errata.uses import _cites
from pipeline.errors import Problem, UserError
from pipeline.hashes import value_hash
from tests.conftest import ROOT

BASE = """title: The hail
question: What did it do?
data:
  competition: Pebble Cup
  format: one-day
  gender: female
event:
  name: the hail
  date: 2020-01-01
  before: 3 seasons
  after: 3 seasons
  control: {name: pace, where: {bowler_kind: pace}}
also: [{name: the wind, date: 2021-01-01}]
headlines: [rate]
lists:
  keepers: [Ann Moor, Kim Fen]
  openers: [Bea Moor]
said: {keepers: the keepers}
beats:
  - {id: rate, kind: before_after, measure: run_rate}
  - {id: kept, kind: before_after, measure: economy, where: {bowler: keepers}}
  - {id: opened, kind: before_after, measure: economy, where: {bowler: openers}}
"""
RAIN = "like: hail\ntitle: The rain\n"


@pytest.fixture()
def topics(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of topics of a project: one, 'hail', is there."""
    shutil.copytree(ROOT / "config", tmp_path / "config")
    for name in ("demo_data", "templates"):
        (tmp_path / name).symlink_to(ROOT / name)
    monkeypatch.chdir(tmp_path)
    folder = Path("config") / "topics"
    for path in folder.glob("*.yaml"):
        path.unlink()
    (folder / "hail.yaml").write_text(BASE, "utf-8")
    return folder


def written(folder: Path, name: str, text: str) -> Path:
    path = folder / f"{name}.yaml"
    path.write_text(text, "utf-8")
    return path


def rain(folder: Path, more: str = "") -> Topic:
    written(folder, "rain", RAIN + more)
    return load("config").topics["rain"]


def problems(only: str | None = None) -> list[str]:
    with pytest.raises(UserError) as caught:
        load("config", only=only)
    return [str(problem).removeprefix("config/topics/") for problem in caught.value.problems]


def test_what_is_not_given_is_the_other_s(topics: Path):
    own, other = rain(topics), load("config").topics["hail"]
    assert own.title == "The rain" and other.title == "The hail"
    assert own.model_dump(exclude={"title"}) == other.model_dump(exclude={"title"})
    assert [beat.id for beat in own.beats] == ["rate", "kept", "opened"]


def test_sections_are_laid_over_key_by_key_and_all_else_is_replaced(topics: Path):
    own = rain(
        topics,
        "data: {competition: Sand Cup}\nevent: {name: the rain, date: 2019-03-01}\n"
        "lists: {openers: [Cat Moor]}\nsaid: {openers: those at the top}\n"
        "headlines: [kept]\nalso: []\n",
    )
    assert (own.data.competition, own.data.gender) == (["Sand Cup"], "female")
    event = own.event
    assert event and (event.name, str(event.date)) == ("the rain", "2019-03-01")
    assert str(event.before) == "3 seasons" and event.control and event.control.name == "pace"
    assert own.lists == {"keepers": ["Ann Moor", "Kim Fen"], "openers": ["Cat Moor"]}
    assert own.said == {"keepers": "the keepers", "openers": "those at the top"}
    assert own.headlines == ["kept"] and own.also == []


def test_a_control_of_an_event_is_replaced_as_a_whole(topics: Path):
    written(topics, "rain", RAIN + "event: {control: {where: {bowler_kind: spin}}}\n")
    (problem,) = problems()
    assert problem.startswith("rain.yaml:3:18: event.control.name: 'name' is missing here")


def test_a_null_takes_the_other_s_away(topics: Path):
    own = rain(
        topics,
        "data: {competition: null}\nevent: {control: null}\nalso: null\nheadlines: null\n"
        "lists: {openers: null}\n"
        "beats: [{id: rate, kind: before_after, measure: run_rate, where: {bowler: keepers}}]\n",
    )
    assert own.data.competition is None and own.data.gender == "female"
    assert own.event and own.event.control is None
    assert (own.also, own.headlines, list(own.lists)) == ([], [], ["keepers"])
    without = rain(
        topics,
        "event: null\nalso: null\nlists: null\nsaid: null\nheadlines: [apart]\nbeats:\n"
        "  - {id: apart, kind: groups, measure: run_rate, between: {innings: [1, 2]}}\n",
    )
    assert (without.event, without.lists, without.said) == (None, {}, {})


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ("evnt: null\n", "rain.yaml:3:1: evnt: takes nothing away, since 'hail' has none; leave"),
        ("data: {source: null}\n", "rain.yaml:3:8: data.source: takes nothing away, since 'hail'"),
        ("lists: {opener: null}\n", "rain.yaml:3:9: lists.opener: takes nothing away, since 'ha"),
        ("data: null\n", "rain.yaml:1:1: data: 'data' is missing here"),
        ("data: {format: null}\n", "rain.yaml:3:7: data.format: 'format' is missing here"),
        ("event: null\n", "hail.yaml:20:22: beats[1].kind: a before_after beat needs the topic's"),
        ("lists: [a]\n", "rain.yaml:3:8: lists: "),
        ("data: Sand Cup\n", "rain.yaml:3:7: data: "),
        ("dta: {format: one-day}\n", "rain.yaml:3:1: dta: unknown key (did you mean 'data'?)"),
    ],
)
def test_what_can_t_be_laid_over_is_placed(topics: Path, more: str, said: str):
    written(topics, "rain", RAIN + more)
    found = problems()
    assert any(problem.startswith(said) for problem in found), found


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("like: hail\n", "rain.yaml:1:7: like: a topic that is like another needs a title of its"),
        ("title: null\nlike: hail\n", "rain.yaml:1:8: title: a topic that is like another needs"),
        ("like: hail\ntitle: the  HAIL\n", "rain.yaml:2:8: title: 'hail' has this title too; gi"),
        ("like: hale\ntitle: A\n", "rain.yaml:1:7: like: no topic 'hale' (did you mean 'hail'?)"),
        ("like: rain\ntitle: A\n", "rain.yaml:1:7: like: a circle, since 'rain' is like 'rain'"),
        ("like: [hail]\ntitle: A\n", "rain.yaml:1:7: like: expected the name of another topic's"),
        ("like: 7\ntitle: A\n", "rain.yaml:1:7: like: expected the name of another topic's file"),
        ("like: Hail\ntitle: A\n", "rain.yaml:1:7: like: 'Hail' is no topic: a topic's name has"),
        ("like: ''\ntitle: A\n", "rain.yaml:1:7: like: '' is no topic: a topic's name has small"),
        ("like: hail.yaml\ntitle: A\n", "rain.yaml:1:7: like: 'hail.yaml' is no topic: a topic'"),
        ("like: ../project\ntitle: A\n", "rain.yaml:1:7: like: '../project' is no topic: a topi"),
        ("like: /etc/hail\ntitle: A\n", "rain.yaml:1:7: like: '/etc/hail' is no topic: a topic'"),
        ("like: data\ntitle: A\n", "rain.yaml:1:7: like: 'data' is no topic: a folder of output/"),
    ],
)
def test_a_name_or_a_title_that_won_t_do_is_the_only_mistake(topics: Path, text: str, said: str):
    written(topics, "rain", text)
    (found,) = problems()
    assert found.startswith(said), found


def test_a_title_is_told_apart_from_that_of_the_third_too(topics: Path):
    written(topics, "rain", RAIN)
    written(topics, "sleet", "like: rain\ntitle: The Hail\n")
    (found,) = problems()
    assert found.startswith("sleet.yaml:2:8: title: 'hail' has this title too")


def test_one_may_be_like_one_that_is_like_a_third(topics: Path):
    rain(topics, "data: {competition: Sand Cup}\nevent: {name: the rain}\nlists: {openers: null}\n")
    written(topics, "sleet", "like: rain\ntitle: Sleet\ndata: {gender: male}\nalso: null\n")
    config = load("config")
    own = config.topics["sleet"]
    assert (own.data.competition, own.data.gender, own.data.format) == (
        *(["Sand Cup"], "male", "one-day"),
    )
    assert own.event and own.event.name == "the rain" and str(own.event.date) == "2020-01-01"
    assert own.also == [] and list(own.lists) == ["keepers"]
    assert config.like == {"hail": (), "rain": ("hail",), "sleet": ("rain", "hail")}
    assert [path.name for path in config.topic_files("sleet")] == [
        *("sleet.yaml", "rain.yaml", "hail.yaml"),
    ]


def test_a_null_in_the_middle_has_taken_it_away_already(topics: Path):
    rain(topics, "also: null\n")
    written(topics, "sleet", "like: rain\ntitle: Sleet\nalso: null\n")
    (found,) = problems()
    assert found.startswith("sleet.yaml:3:1: also: takes nothing away, since 'rain' has none")


def test_a_row_of_four_and_a_circle_are_told_where_they_begin(topics: Path):
    written(topics, "rain", RAIN)
    written(topics, "sleet", "like: rain\ntitle: Sleet\n")
    written(topics, "snow", "like: sleet\ntitle: Snow\n")
    (found,) = problems()
    assert found.startswith("snow.yaml:1:7: like: too long a row, since 'rain' is like 'hail'; a")
    (topics / "snow.yaml").unlink()
    written(topics, "hail", f"like: sleet\n{BASE}")
    told = "like: a circle, since"
    assert [each.partition(" '")[0] for each in problems()] == [
        f"hail.yaml:1:7: {told}",
        f"rain.yaml:1:7: {told}",
        f"sleet.yaml:1:7: {told}",
    ]


def test_a_mistake_in_the_liked_file_is_told_once_and_where_it_stands(topics: Path):
    written(
        topics,
        "hail",
        BASE.replace("kind: before_after, measure: run", "kind: bfore_after, measure: run"),
    )
    written(topics, "rain", RAIN)
    written(topics, "sleet", "like: rain\ntitle: Sleet\n")
    (found,) = problems()
    assert found.startswith("hail.yaml:20:") and "read for" not in found
    (alone,) = problems(only="sleet")
    assert alone == f"{found} (read for 'sleet', which is like it)"


def test_a_liked_file_that_is_no_yaml_is_told_once(topics: Path):
    written(topics, "hail", "title: [\n")
    written(topics, "rain", RAIN)
    (found,) = problems()
    assert found.startswith("hail.yaml:2:1: not valid YAML")


def test_what_only_the_other_topic_makes_wrong_says_whose_it_is(topics: Path):
    """The base is right; its headline has no beat in the topic that has beats of its own."""
    beats = "beats: [{id: speed, kind: before_after, measure: run_rate}]\nlists: null\nsaid: null\n"
    written(topics, "rain", RAIN + beats)
    (found,) = problems()
    assert found.startswith("hail.yaml:14:13: headlines[1]: no beat 'rate'")
    assert found.endswith("(read for 'rain', which is like it)")
    assert load("config", only="hail").topics["hail"].headlines == ["rate"]


def test_places_of_every_level_lead_to_their_own_file(topics: Path):
    """Of the file's own key, a key of the other's beneath it, and one of the third's."""
    rain(topics, "data:\n  competition: Sand Cup\n")
    path = written(topics, "sleet", "like: rain\ntitle: Sleet\nevent:\n  name: sleet\n")
    read = like.read_topic(path)
    found = {
        ".".join(map(str, place)): str(read.document.problem(place, ""))
        for place in (
            *(("title",), ("event", "name"), ("event", "date"), ("data",), ("data", "format")),
            *(("data", "competition"), ("beats", 1, "where", "bowler"), ("lists", "keepers", 1)),
        )
    }
    at = {key: said.split(": ")[0].removeprefix("config/topics/") for key, said in found.items()}
    assert at == {
        "title": "sleet.yaml:2:8",
        "event.name": "sleet.yaml:4:9",
        "event.date": "hail.yaml:9:9",
        "data": "rain.yaml:4:3",
        "data.format": "hail.yaml:5:11",
        "data.competition": "rain.yaml:4:16",
        "beats.1.where.bowler": "hail.yaml:21:70",
        "lists.keepers.1": "hail.yaml:16:23",
    }


def test_what_a_stage_finds_is_placed_in_the_file_where_it_stands(topics: Path):
    rain(topics, "data: {competition: Sand Cup}\n")
    own = located(Problem("config/topics/rain.yaml", "no match", where="data.competition"))
    assert (own.file, own.line, own.message) == ("config/topics/rain.yaml", 3, "no match")
    other = located(Problem("config/topics/rain.yaml", "no list", where="beats[2].where.bowler[1]"))
    assert (other.file, other.line) == ("config/topics/hail.yaml", 21)
    assert other.message == "no list (read for 'rain', which is like it)"


def test_a_liked_file_that_vanishes_is_told_at_like_and_by_the_doctor(topics: Path):
    rain(topics)
    (topics / "hail.yaml").unlink()
    (found,) = problems()
    assert found == "rain.yaml:1:7: like: no topic 'hail'"
    (line,) = configuration(Path("config"), Path("output"))
    assert not line.well and "rain.yaml:1:7: like: no topic 'hail'" in line.what
    unplaced = Problem("config/topics/rain.yaml", "no match", where="data")
    assert located(unplaced) == unplaced


def test_the_doctor_says_what_is_like_what(topics: Path):
    rain(topics)
    line = next(configuration(Path("config"), Path("output")))
    assert line.well and line.what.startswith("2 topics (hail, rain like hail)")


def seen(config: Config, topic: str) -> list[str]:
    of = (views.metrics, views.significance, views.charts, views.brief)
    return [value_hash(view(config, topic)) for view in of]


def test_stages_see_what_is_like_another_as_if_it_were_written_out(topics: Path):
    """So that a change of the liked file reaches them, and the way it was written does not."""
    rain(topics, "event: {name: the rain}\n")
    before = seen(load("config"), "rain")
    whole = BASE.replace("The hail", "The rain").replace("name: the hail", "name: the rain")
    written(topics, "rain", whole)
    assert seen(load("config"), "rain") == before
    written(topics, "rain", RAIN + "event: {name: the rain}\n")
    written(topics, "hail", BASE.replace("name: the wind", "name: the gale"))
    after = seen(load("config"), "rain")
    assert [one != other for one, other in zip(before, after, strict=True)] == [
        *(False, True, True, True),
    ]


def test_a_citation_is_found_through_the_file_where_it_stands(topics: Path):
    written(topics, "hail", f"{BASE}see_also: [{{fact: 'wind/1:rate.run_rate.change'}}]\n")
    path = written(topics, "rain", RAIN)
    ((cited, file),) = _cites(path)
    assert cited["fact"] == "wind/1:rate.run_rate.change" and file == "config/topics/hail.yaml"
    assert CitedBy(by="topic rain", file=file, cites=cited["fact"]).file.endswith("hail.yaml")
    written(topics, "rain", RAIN + "see_also: null\n")
    assert list(_cites(path)) == []


def plain(text: str) -> Any:
    return json.loads(json.dumps(YAML(typ="safe").load(text), default=str))


@pytest.mark.parametrize(
    "text",
    [
        RAIN,
        RAIN + "data: {competition: Sand Cup}\nevent: {name: the rain}\n",
        RAIN + "data: {competition: null}\nevent: {date: 2020-03-04, control: null}\n",
        RAIN + "event: null\nheadlines: null\nlists: {openers: null}\nsaid: null\n",
        BASE,
        "like: null\n" + BASE,
    ],
)
def test_the_editor_s_schema_asks_for_no_key_that_the_other_supplies(text: str):
    jsonschema.Draft202012Validator(json.loads(schema("topic"))).validate(plain(text))


@pytest.mark.parametrize(
    "text",
    [
        "like: hail\n",
        "title: The rain\n",
        "like: 7\ntitle: The rain\n",
        "like: Hail\ntitle: The rain\n",
        RAIN + "evnt: {name: the rain}\n",
        RAIN + "event: {nme: the rain}\n",
        RAIN + "beats: null\n",
        RAIN + "data: {format: null}\n",
        RAIN + "lists: {openers: 7.5}\n",
        RAIN + "beats: [{id: rate, kind: before_after}]\n",
        BASE.replace("  format: one-day\n", ""),
        BASE.replace("  name: the hail\n", ""),
        BASE.replace("headlines: [rate]", "headlines: null"),
        BASE.replace("question: What did it do?\n", ""),
    ],
)
def test_the_editor_s_schema_still_sees_mistakes(text: str):
    found = jsonschema.Draft202012Validator(json.loads(schema("topic")))
    assert not found.is_valid(plain(text))
