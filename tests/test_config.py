"""Configuration: the place of every mistake, near words, closed sections, current schemas."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import jsonschema
import pytest
from ruamel.yaml import YAML

from pipeline.config.fields import parse_margin, parse_over_range
from pipeline.config.load import load, load_sources
from pipeline.config.schemas import SCHEMAS, schema
from pipeline.config.sums import parse_sum
from pipeline.config.when import parse_window
from pipeline.errors import UserError

ROOT = Path(__file__).parents[1]


@pytest.fixture()
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(ROOT / "config", tmp_path / "config")
    for name in ("demo_data", "templates"):
        (tmp_path / name).symlink_to(ROOT / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path / "config"


def problems(folder: Path, file: str, old: str, new: str) -> list[str]:
    path = folder / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    with pytest.raises(UserError) as caught:
        load("config")
    return [str(problem) for problem in caught.value.problems]


def test_the_demo_configuration_is_valid(folder: Path):
    assert set(load("config").topics) == {"long-grass", "sea-air", "who-paid"}


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("kind: trend", "kind: trnd", "18:11: beats[1].kind: 'trnd' is not valid here (did you"),
        ("question:", "quesion:", "4:1: quesion: unknown key (did you mean 'question'?)"),
        ("id: kinds", "id: rate", "two beats have the id 'rate'"),
        ("finding: wickets", "finding: wicket", "no beat 'wicket' (did you mean 'wickets'?)"),
        (
            "phase: middle",
            "phase: midle",
            "'midle' is no value of 'phase' (did you mean 'middle'?)",
        ),
        ("date: 2017-03-01", "date: 2017-13-01", "event.date"),
        ("headlines: [kinds", "headlines: [kind", "no beat 'kind' (did you mean 'kinds'?)"),
    ],
)
def test_a_mistake_in_a_topic_is_placed_and_hinted(folder: Path, old: str, new: str, said: str):
    found = problems(folder, "topics/long-grass.yaml", old, new)
    assert any(said in problem for problem in found), found
    assert all(problem.startswith("config/topics/long-grass.yaml:") for problem in found)


def test_a_control_of_a_topic_without_an_event_is_placed(folder: Path):
    """A trend may do without an event, a control may not."""
    path = folder / "topics" / "sea-air.yaml"
    control = "control: {name: pace, where: {bowler_kind: pace}}"
    trend = f"  - {{id: long, kind: trend, measure: economy, {control}}}\n"
    text = path.read_text("utf-8")
    assert "\nevent:" not in text
    path.write_text(text.replace("beats:\n", f"beats:\n{trend}", 1), "utf-8")
    with pytest.raises(UserError) as caught:
        load("config")
    (problem,) = caught.value.problems
    assert problem.where == "beats[1].control" and "has no 'event'" in problem.message


def test_a_misspelt_kind_does_not_hide_its_beats_other_mistakes(folder: Path):
    old = "kind: trend\n    measure: run_rate"
    found = problems(folder, "topics/long-grass.yaml", old, "kind: trnd\n    measure: run_rat")
    assert len(found) == 2


def test_a_key_twice_is_an_error(folder: Path):
    found = problems(folder, "project.yaml", "language: en-GB", "language: en-GB\nlanguage: en-GB")
    assert "'language' stands twice" in found[0]


def test_what_is_said_of_no_filter_is_placed_and_hinted(folder: Path):
    path = folder / "topics" / "long-grass.yaml"
    text = path.read_text("utf-8")
    filtered = text.replace("{phase: middle}", "{phase: middle, batter_tag: opener}", 1)
    path.write_text(f"{filtered}said: {{opener: the openers}}\n", "utf-8")
    assert load("config").topics["long-grass"].said == {"opener": "the openers"}
    (problem,) = problems(folder, "topics/long-grass.yaml", "said: {opener", "said: {opner")
    assert "said.opner: no beat's 'where' has 'opner'" in problem
    assert "did you mean 'opener'?" in problem


def test_measures_of_one_name_and_two_meanings_are_refused(folder: Path):
    """The left arm's share and the left hand's: one would be told in the words of the other."""
    (found,) = problems(
        folder,
        "topics/who-paid.yaml",
        "  - id: names\n",
        "  - {id: hands, kind: share, of: {batter_hand: left}}\n  - id: names\n",
    )
    assert "who-paid.yaml:" in found and "beats[6].id" in found
    assert "beats 'share' and 'hands' have measures of one name, 'left-share'" in found


def test_a_share_has_its_margin_in_points(folder: Path):
    found = problems(folder, "measures.yaml", "margin: 0.6 points", "margin: 5 %")
    assert "margin in points" in found[0]


def test_a_missing_source_file_is_named(folder: Path):
    found = problems(folder, "sources.yaml", "tidewater-shield.zip", "tidewater.zip")
    said = "source 'tidewater': no file or folder 'demo_data/tidewater.zip'"
    assert found == [f"config/sources.yaml:5:11: sources[1].path: {said}"]


def test_two_sources_of_one_id_are_placed(folder: Path):
    path = folder / "sources.yaml"
    text = path.read_text("utf-8")
    path.write_text(text + text.split("sources:\n")[1], "utf-8")
    with pytest.raises(UserError) as caught:
        load("config")
    (problem,) = caught.value.problems
    assert (problem.line, problem.where) == (len(text.splitlines()) + 1, "sources[2].id")


def test_yaml_words_stay_text(folder: Path):
    """YAML 1.2: 'no' is not false and 12:30 is not 750."""
    path = folder / "topics" / "sea-air.yaml"
    text = path.read_text("utf-8").replace("title: Is it really the sea air?", "title: no")
    path.write_text(text.replace("say: Spinners hate it", "say: 12:30"), "utf-8")
    topic = load("config").topics["sea-air"]
    assert topic.title == "no" and topic.expected[1].say == "12:30"


@pytest.mark.parametrize("name", SCHEMAS)
def test_the_schemas_are_current_and_valid(name: str):
    text = (ROOT / "config" / "schema" / f"{name}.json").read_text("utf-8")
    assert text == schema(name)
    jsonschema.Draft202012Validator.check_schema(json.loads(text))


@pytest.mark.parametrize("topic", ["long-grass", "sea-air", "who-paid"])
def test_the_demo_topics_satisfy_the_schema(topic: str):
    tree = YAML(typ="safe").load(ROOT / "config" / "topics" / f"{topic}.yaml")
    plain = json.loads(json.dumps(tree, default=str))
    jsonschema.validate(plain, json.loads(schema("topic")))


def test_windows():
    assert parse_window("5 seasons").seasons == 5
    assert (parse_window("2012 to 2016").first, parse_window("2012/13 to 2016/17").last) == (
        "2012",
        "2016/17",
    )
    assert parse_window("2012-04-01 to 2016-09-30").dated
    for wrong in ("five", "0 seasons", "2012-04-01 to 2016", "2012"):
        with pytest.raises(ValueError, match=r"window|mixes"):
            parse_window(wrong)


def test_over_ranges_margins_and_sums():
    assert parse_over_range("11-40") == (11, 40) and parse_over_range(7) == (7, 7)
    assert parse_margin("5 %").unit == "percent" and parse_margin("0.6 points").unit == "points"
    assert parse_sum("4*four + 6*six") == [(4, "four"), (6, "six")]
    for wrong in ("four * six", "__import__('os')", "fours", "four +"):
        with pytest.raises(ValueError):
            parse_sum(wrong)
    for wrong in ("40-11", "0-3", "x"):
        with pytest.raises(ValueError):
            parse_over_range(wrong)


def test_a_theme_names_the_files_that_are_not_there(folder: Path):
    found = problems(folder, "theme.yaml", "Archivo-Medium.ttf", "Archivo-Thin.ttf")
    missing = "no file 'templates/fonts/Archivo-Thin.ttf'"
    assert found == [f"config/theme.yaml:6:17: fonts.Medium: {missing}"]


def test_frames_are_sets_that_there_are(folder: Path):
    found = problems(
        folder, "topics/who-paid.yaml", "frames: [light, dark]", "frames: [light, drak]"
    )
    assert any("'drak' is not valid here (did you mean 'dark'?)" in problem for problem in found)


@pytest.mark.parametrize(
    ("kind", "measure"),
    [
        ("turning_point", "economy"),
        ("gap", "economy"),
        ("phases", "run_rate"),
        ("mix", "economy"),
        ("players\n    role: bowler", "economy"),
        ("trend", "run_rate"),
    ],
)
def test_whole_matches_are_counted_before_and_after_and_by_group_only(folder, kind, measure):
    """A ball is not won or lost, so what is made of balls can't take a share of matches won."""
    old, new = (f"kind: {kind}\n    measure: {name}" for name in (measure, "win_share"))
    found = problems(folder, "topics/who-paid.yaml", old, new)
    said = "'win_share' counts whole matches; of the kinds only before_after, groups can take it"
    assert any(said in problem for problem in found), found


@pytest.mark.parametrize(
    ("old", "new"),
    [("layout: ball-tables", "layout: ball-table"), ("path: demo_data", "path: elsewhere")],
)
def test_sources_load_apart(folder: Path, old: str, new: str):
    """Who reads match files sees the mistakes of their own file, worded alike, and no others."""
    whole = problems(folder, "measures.yaml", "margin: 0.6 points", "margin: 5 %")
    assert list(load_sources("config")) == ["tidewater"] and len(whole) == 1
    found = problems(folder, "sources.yaml", old, new)
    with pytest.raises(UserError) as caught:
        load_sources("config")
    assert [str(problem) for problem in caught.value.problems] == found[:1] and len(found) == 2
