"""What only the data can show to be wrong in a topic has the line of the topic's file."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from pipeline import commands
from pipeline.config import views
from pipeline.config.load import load
from pipeline.config.placed import located, placed
from pipeline.errors import Problem, UserError
from pipeline.hashes import value_hash
from pipeline.in_memory import numbers_of
from pipeline.topic_places import dotted, place_of
from tests.builders import GROUNDS
from tests.conftest import ROOT
from tests.golden.made import made
from tests.league import league, scored
from tests.untidy import untidy

TOPIC = """# A comment, so that no line is where it would be without.
title: A question
question: What happened?
data:
  competition: Pebble Cup
  format: one-day
event:
  name: the hail
  date: 2020-01-01
  before: 3 seasons
  after: 3 seasons
headlines: [rate]
expected:
  - say: They say so
    finding: rate
    means: rises
lists:
  keepers: [Ann Moor, Kim Fen]
beats:
  - id: rate
    kind: before_after
    measure: run_rate
    by: bowler_kind
    where:
      ground: [Moor Top, Fen Side]  # in the order of the fixtures

  - {id: apart, kind: gap, measure: run_rate, between: {batting_team: [Westfold, Southfen]}}
  - id: held
    kind: before_after
    measure: run_rate
    where: {phase: powerplay}
    control:
      name: the middle overs
      where:
        phase: middle
"""
WRONG = [
    ("Pebble Cup", "Peble Cup", "5:16: data.competition: the topic's filters leave no matches: "),
    ("one-day", "twenty-over", "6:11: data.format: the topic's filters leave no matches: the for"),
    ("before: 3", "before: 9", "10:11: event.before: 9 seasons asked; the data hold 6 ("),
    ("after: 3 seasons", "after: 3 seasons\n  trend_from: 2014", "12:15: event.trend_from: no se"),
    ("[rate]", "[rate, rate.run_rate.spinn]", "12:19: headlines[2]: no finding 'rate.run_rate.s"),
    ("Kim Fen]", "Nan Fen]", "18:23: lists.keepers[2]: list 'keepers': no player 'Nan Fen' in"),
    ("Fen Side]", "Fenside]", "25:26: beats[1].where.ground[2]: beat 'rate': ground 'Fenside' i"),
    (
        "ground: [Moor Top, Fen Side]",
        "bowler_tag: keper",
        "25:19: beats[1].where.bowler_tag: beat 'rate': no tag or list 'keper' (did you mean 'k",
    ),
    (
        "ground: [Moor Top, Fen Side]",
        "overs: 22-24",
        "25:7: beats[1].where: beat 'rate': its filters leave no balls; widen 'where'",
    ),
    (
        "ground: [Moor Top, Fen Side]",
        "season: '2015'",
        "25:7: beats[1].where: beat 'rate': its filters leave no balls in the seasons that are c",
    ),
    (
        "[Westfold, Southfen]",
        "[Westfold, Southfenn]",
        "27:82: beats[2].between.batting_team[2]: beat 'apart': batting side 'Southfenn' isn't i",
    ),
    ("phase: middle", "phase: powerplay", "33:7: beats[3].control: beat 'held': its control, th"),
    ("phase: middle", "overs: 20-24", "35:9: beats[3].control.where: beat 'held', control: its f"),
    (
        "phase: middle",
        "batter: Nan Fen",
        "35:17: beats[3].control.where.batter: beat 'held', control: no player 'Nan Fen' in the",
    ),
    (
        "      where:\n        phase: middle",
        "      competition: Shingl Cup",
        "34:20: beats[3].control.competition: the topic's filters leave no matches: competition",
    ),
    ("finding: rate", "finding: rate.run_rate.spn", "15:14: expected[1].finding: no finding 'ra"),
    (
        "headlines: [rate]",
        "headlines: []\nsee_also: [{fact: 'rope/1:rate.change'}]",
        "13:19: see_also[1].fact: no archived edition 'rope/1' (there: none)",
    ),
]


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


def written(project: Path, text: str) -> Path:
    path = project / "config" / "topics" / "asked.yaml"
    path.write_text(text, "utf-8")
    return path


def changed(old: str, new: str) -> str:
    assert TOPIC.count(old) == 1
    return TOPIC.replace(old, new)


def problems(project: Path, text: str) -> list[str]:
    """What is wrong with a topic of this text, from its tallies to its page."""
    file = written(project, text).relative_to(project)
    with pytest.raises(UserError) as caught, placed():
        made(project, "asked", project / "output" / "asked")
    return [str(problem).removeprefix(f"{file}:") for problem in caught.value.problems]


@pytest.mark.parametrize(("old", "new", "said"), WRONG)
def test_what_the_data_show_to_be_wrong_has_its_line(
    project: Path, monkeypatch: pytest.MonkeyPatch, old: str, new: str, said: str
):
    monkeypatch.chdir(project)
    (found,) = problems(project, changed(old, new))
    assert found.startswith(said), found


def test_nothing_is_wrong_with_the_topic_itself(project: Path):
    written(project, TOPIC)
    found = made(project, "asked", project / "output" / "asked").findings.findings
    assert {"rate.run_rate", "apart.run_rate", "held.run_rate"} <= {each.id for each in found}


def own_problems(folder: Path, matches: list[dict], text: str) -> list[str]:
    """What is wrong with a topic of this text on a league of these matches."""
    made = league(folder / "league", matches, grounds=GROUNDS)
    text = text.replace("ground: [Moor Top, Fen Side]", "innings: 1")
    text = text.replace("[Ann Moor, Kim Fen]", "[A Batt]")
    file = written(made, text.replace("{batting_team: [Westfold, Southfen]}", "{innings: [1, 2]}"))
    asked = load(made / "config", only="asked")
    with pytest.raises(UserError) as caught, placed():
        data = made / "output" / "data"
        numbers_of(views.metrics(asked, "asked"), views.significance(asked, "asked"), data)
    return [str(problem).removeprefix(f"{file}:") for problem in caught.value.problems]


def test_sides_of_one_name_are_asked_for_at_the_data(tmp_path: Path):
    """Women's and men's sides in one competition, and a beat that divides by side."""
    matches = [scored(year, 30, 6) for year in (2017, 2018, 2019, 2020, 2021, 2022)]
    for found in matches[::2]:
        found["info"]["gender"] = "male"
    text = changed("by: bowler_kind", "by: batting_team")
    (found,) = own_problems(tmp_path, matches, text)
    assert found.startswith("5:3: data: beat 'rate' divides by side") and "data.gender" in found


def test_two_values_of_one_id_are_placed_at_what_divides(tmp_path: Path):
    matches = [scored(year, 30, 6) for year in (2017, 2018, 2019, 2020, 2021, 2022)]
    matches[1]["info"]["venue"] = "The-Pebbles"
    (found,) = own_problems(tmp_path, matches, changed("by: bowler_kind", "by: ground"))
    assert found.startswith("23:9: beats[1].by: beat 'rate': 'The-Pebbles' and 'The Pebbles' make")


def test_a_control_of_too_few_seasons_is_placed_at_its_competition(tmp_path: Path):
    """Its windows are counted by its own seasons."""
    matches = [scored(year, 30, 6) for year in (2017, 2018, 2019, 2020, 2021, 2022, 2019, 2020)]
    for found in matches[6:]:
        found["info"]["event"]["name"] = "Sand Cup"
    text = changed("      where:\n        phase: middle", "      competition: Sand Cup")
    before, after = own_problems(tmp_path, matches, text)
    assert before == (
        "34:20: beats[3].control.competition: the middle overs: 3 seasons asked; "
        "the data hold 1 (2019) before 2020-01-01"
    )
    assert after.endswith("3 seasons asked; the data hold 1 (2020) after 2020-01-01")


def test_a_comment_makes_nothing_anew(project: Path):
    """Lines are no part of what a stage is given."""
    hashes = []
    for text in (TOPIC, TOPIC.replace("beats:\n", "# More about the beats.\n\nbeats:\n")):
        written(project, text)
        config = load(project / "config", only="asked")
        made = [view(config, "asked") for view in (views.metrics, views.significance, views.brief)]
        hashes.append([value_hash(view) for view in made])
    assert hashes[0] == hashes[1]


def test_a_stage_prints_the_line(project: Path, tmp_path: Path):
    """What is typed, or run by the workflow, ends with the place and status 1."""
    written(project, changed("Fen Side]", "Fenside]"))
    words = ["--topic", "asked", "--out", str(tmp_path), "--data", "output/data"]
    done = subprocess.run(
        [sys.executable, "-m", "pipeline.metrics", *words],
        cwd=project,
        env={"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1
    assert done.stderr.startswith(
        "config/topics/asked.yaml:25:26: beats[1].where.ground[2]: beat 'r"
    )


def test_commands_by_hand_have_the_line_too(project: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(project)
    written(project, changed("Fen Side]", "Fenside]"))
    with pytest.raises(UserError, match=r"asked\.yaml:25:26: beats\[1\]\.where\.ground\[2\]: "):
        commands.run("preview", ["asked", "--once"])


def test_what_is_no_part_of_a_file_stays_as_it_is(project: Path):
    file = str(written(project, TOPIC))
    for problem in (
        Problem(file, "nothing of a place"),
        Problem(file, "placed already", 3, 1, "beats"),
        Problem("sheet.csv", "no YAML", where="beats"),
        Problem(str(project / "gone.yaml"), "not there any more", where="beats"),
    ):
        assert located(problem) == problem
    lost = located(Problem(file, "no such beat", where="beats[9].where"))
    assert (lost.line, lost.where) == (20, "beats[9].where")  # where the beats begin


@pytest.mark.parametrize(
    "place", [("data",), ("beats", 2, "where", "ground", 0), ("headlines", 11)]
)
def test_a_place_s_name_leads_back_to_it(place: tuple[str | int, ...]):
    assert place_of(dotted(place)) == place
