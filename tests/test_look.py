"""A stranger's table, as a new user brings it in: look, take the marks away, decide, build."""

from __future__ import annotations

import re
import shutil
import sqlite3
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import duckdb
import pandas as pd
import pyarrow.parquet as pq
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from pipeline.config.load import load_sources
from pipeline.contracts.files import read_json
from pipeline.contracts.quality import SourceReport
from pipeline.errors import UserError
from pipeline.ingest.stage import ingest
from pipeline.look.command import look
from pipeline.look.mapped import mapped
from pipeline.look.sampled import Column
from tests.conftest import ROOT
from tests.foreign_tables import EXTRAS, Ball, balls, database, odd_parquet, semicolons, truth
from tests.small_project import edit

TRIES = 2
FILLED = {
    "title": "Pebble Cup",
    "publisher": "Pebble Scorers",
    "licence": "CC0-1.0",
    "competition": "Pebble Cup",
    "gender": "female",
}
FOUND = balls()


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the configuration as it ships, and the demo's file, which is not read."""
    shutil.copytree(ROOT / "config", tmp_path / "config")
    (tmp_path / "demo_data").mkdir()
    (tmp_path / "demo_data" / "tidewater-shield.zip").touch()
    monkeypatch.chdir(tmp_path)
    return tmp_path


def sources() -> Path:
    return Path("config/sources.yaml")


def taken(said: str) -> None:
    """The marks taken away by the command that is printed."""
    command = next(line.strip() for line in said.splitlines() if "sed -i" in line)
    subprocess.run(command, shell=True, check=True)


def decided(**more: str) -> None:
    """Every TODO written out, as a person does; `more` are words of the table's own."""
    lines = []
    for line in sources().read_text("utf-8").splitlines():
        key = line.partition(":")[0].strip().strip('"')
        if "TODO" in line and "date_format" not in line:
            first = re.search(r"one of ([^,\"]+)", line)  # of the types that formats.yaml names
            line = (
                f"{line.partition(':')[0]}: {more.get(key) or (first or [0, FILLED.get(key)])[1]}"
            )
        lines.append(line)
    sources().write_text("\n".join(lines) + "\n", "utf-8")


def read(identity: str) -> SourceReport:
    ingest(load_sources()[identity], Path("made"))
    return read_json(Path("made/report.json"), SourceReport)


def counted(report: SourceReport) -> dict[str, int]:
    return {name: getattr(report, name) for name in ("matches", "deliveries", "runs", "wickets")}


@pytest.mark.parametrize(
    ("make", "file", "todo"),
    [(semicolons, "balls.csv", 6), (database, "club.db", 6), (odd_parquet, "odd.parquet", 5)],
)
def test_a_foreign_table_is_in_at_the_second_try(
    project: Path,
    capsys: pytest.CaptureFixture[str],
    make: Callable[[Path], list[Ball]],
    file: str,
    todo: int,
):
    """First try: nothing decided, and told so with line; second: everything counted."""
    found = make(project / file)
    before = sources().read_text("utf-8")
    look([file])
    said = capsys.readouterr().out
    assert f"its {todo} TODO" in said and "missing" not in said
    assert sources().read_text("utf-8").startswith(before)
    assert set(load_sources()) == {"tidewater"}, "a proposal changes nothing"
    taken(said)
    identity = file.partition(".")[0]
    with pytest.raises(UserError, match=r"sources.yaml:\d+:\d+: .*still TODO: title, publisher"):
        read(identity)
    decided()
    assert counted(read(identity)) == truth(found)


def test_what_is_read_is_what_was_played(project: Path, capsys: pytest.CaptureFixture[str]):
    """Row by row: order, sides, people, runs and dismissals are those of its maker."""
    found = database(project / "club.db")
    look(["club.db"])
    taken(capsys.readouterr().out)
    decided()
    read("club")
    made = pq.read_table("made/deliveries.parquet").to_pylist()
    people = {row["id"]: row["name"] for row in pq.read_table("made/people.parquet").to_pylist()}
    for row, ball in zip(made, found, strict=True):
        for role in ("batter", "non_striker", "bowler"):
            assert people[row[f"{role}_id"]] == ball[role]
        if ball["dismissal"]:
            assert people[row["player_out_id"]] in (ball["player_out"], ball["other_player_out"])
        for name in ("match_id", "innings", "over", "delivery", "runs_batter", "wides", "legbyes"):
            assert row[name] == ball[name], name
        assert row["wickets"] == bool(ball["dismissal"]) + bool(ball["other_dismissal"])
    days = {
        row["match_id"]: str(row["date"])
        for row in pq.read_table("made/matches.parquet").to_pylist()
    }
    assert days == {ball["match_id"]: ball["date"] for ball in found}


def test_the_proposal_says_how_cells_are_written(project: Path, capsys: pytest.CaptureFixture[str]):
    semicolons(project / "balls.csv")
    look(["balls.csv"])
    said = capsys.readouterr().out
    text = sources().read_text("utf-8")
    for line in (
        "delimiter: semicolon",
        'encoding: "windows-1252"',
        'date_format: "DD/MM/YYYY"',
        "overs_from: 0",
        "season: year",
        'blank: ["NA"]',
        "ct: caught",
        "NB: noballs",
    ):
        assert re.search(rf"^# .*{re.escape(line)}", text, re.MULTILINE), line
    assert "dates are day first" in said and "overs begin with 0" in said
    assert "batter            Striker" in said and "not used    Umpire" in said


def written(found: list[Ball], path: Path, names: dict[str, str], **marks: str) -> Path:
    """A CSV of some of our columns under their names; `marks`: delimiter and encoding."""
    mark = marks.get("mark", ",")
    rows = [names.values(), *([str(ball[ours]) for ours in names] for ball in found)]
    text = "\n".join(mark.join(row) for row in rows) + "\n"
    path.write_bytes(text.encode(marks.get("encoding", "utf-8")))
    return path


PLAIN = (
    *("match_id", "date", "season", "innings", "over", "batting_team", "bowling_team", "batter"),
    *("non_striker", "bowler", "runs_batter", *EXTRAS, "dismissal", "player_out"),
)
OWN = {name: name for name in PLAIN}


def proposal(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[str, dict[str, Any]]:
    """What is said, and the proposed source as data."""
    look(list(words))
    said = capsys.readouterr().out
    taken(said)
    return said, YAML(typ="safe").load(sources().read_text("utf-8"))["sources"][-1]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize(("mark", "name"), [("\t", "tab"), (";", "semicolon"), ("|", "bar")])
def test_delimiters_and_letters_are_told(project: Path, capsys, encoding, mark, name):
    written(FOUND, project / "t.csv", OWN, mark=mark, encoding=encoding)
    _, made = proposal(capsys, "t.csv")
    wanted = {"delimiter": name} | ({"encoding": "utf-16"} if encoding == "utf-16" else {})
    assert made["written"] == wanted
    decided()
    assert read("t").deliveries == len(FOUND)


def test_a_zip_and_a_folder_of_files(project: Path, capsys):
    (project / "all").mkdir()
    for number in "1234":
        only = [ball for ball in FOUND if ball["match_id"] == number]
        written(only, project / "all" / f"{number}.csv", OWN)
    shutil.make_archive("all", "zip", "all")
    for place in ("all", "all.zip"):
        said, made = proposal(capsys, place)
        assert f"{len(FOUND)} rows looked at" in said and made["columns"] == OWN
        decided()
        assert read(made["id"]).deliveries == len(FOUND)


def test_a_database_of_the_other_kind(project: Path, capsys):
    """Every table, its ids and its dismissals as the same of SQLite."""
    found = database(project / "club.db")
    with sqlite3.connect("club.db") as old, duckdb.connect("club.duckdb") as new:
        names = [name for (name,) in old.execute("SELECT name FROM sqlite_master")]
        for name in names:
            frame = pd.read_sql(f"SELECT * FROM {name}", old)
            new.register("frame", frame)
            new.execute(f"CREATE TABLE {name} AS SELECT * FROM frame")
            new.unregister("frame")
    proposal(capsys, "club.duckdb")
    decided()
    assert counted(read("club")) == truth(found)


def test_a_table_of_a_database_that_is_asked_for(project: Path, capsys):
    database(project / "club.db")
    with pytest.raises(UserError, match=r"no table 'delivery' \(did you mean 'deliveries'\?\)"):
        look(["club.db", "--table", "delivery"])
    said, _ = proposal(capsys, "club.db", "--table", "games")
    assert "missing: runs_batter" in said
    semicolons(project / "balls.csv")
    with pytest.raises(UserError, match="no database; leave --table out"):
        look(["balls.csv", "--table", "balls"])


def test_dates_that_may_be_of_two_forms_are_a_persons_to_decide(project: Path, capsys):
    found = [ball | {"date": "05/06/2019"} for ball in FOUND]
    written(found, project / "t.csv", OWN)
    said, made = proposal(capsys, "t.csv")
    assert "dates may be DD/MM/YYYY or MM/DD/YYYY" in said
    assert made["date_format"] == "DD/MM/YYYY"
    assert "# TODO or MM/DD/YYYY?" in sources().read_text("utf-8")


def test_what_is_missing_is_said_with_what_to_do(project: Path, capsys):
    names = {ours: ours for ours in PLAIN if ours not in ("non_striker", "byes", "bowling_team")}
    written(FOUND, project / "t.csv", names)
    said, _ = proposal(capsys, "t.csv")
    said = " ".join(said.split())
    assert "missing: non_striker: constants: {non_striker: not recorded}" in said
    assert "missing: bowling_team: a column made of others: query: SELECT *, CASE WHEN" in said
    assert "no column looks like byes: they count as none" in said
    text = sources().read_text("utf-8")
    assert "# missing: non_striker: constants: {non_striker: not recorded}" in text
    edit(sources(), "layout: table\n", f"layout: table\n    query: {MADE}\n")
    edit(sources(), "constants:  ", "constants:\n      non_striker: not recorded\n      #")
    edit(sources(), "columns:  ", "columns:\n      bowling_team: bowling\n      #")
    decided()
    assert counted(read("t"))["deliveries"] == len(FOUND)


MADE = (
    "SELECT *, CASE WHEN batting_team = 'Northmoor' THEN 'Southfen' ELSE 'Northmoor' END AS "
    "bowling FROM data ORDER BY match_id"
)


def test_runs_that_count_extras_are_not_taken_for_the_bats(project: Path, capsys):
    total = [ball | {"runs_batter": ball["runs_batter"] + ball["wides"]} for ball in FOUND]
    written(total, project / "t.csv", OWN | {"runs_batter": "Runs"})
    said, made = proposal(capsys, "t.csv")
    assert "every wide has runs in 'Runs': it seems to count extras too" in said
    assert "runs_batter" not in made["columns"]
    assert '"Runs" - extras AS off_the_bat' in " ".join(said.split())


def test_wickets_need_their_kind_and_their_player(project: Path, capsys):
    for left_out, told in (
        ("player_out", "missing: player_out: who was out"),
        ("dismissal", "no column looks like kinds of dismissal: no wicket would count"),
    ):
        names = {ours: ours for ours in PLAIN if ours != left_out}
        written(FOUND, project / "t.csv", names)
        said, _ = proposal(capsys, "t.csv")
        assert told in " ".join(said.split())


def test_a_match_that_has_several_dates_is_noted(project: Path, capsys):
    """A number that begins anew each season is no match's own."""
    found = [ball | {"match_id": str(int(ball["match_id"]) % 2)} for ball in FOUND]
    written(found, project / "t.csv", OWN | {"match_id": "match no"})
    said, _ = proposal(capsys, "t.csv")
    assert "'match no' has several dates for one match" in " ".join(said.split())


def test_rows_in_any_order_are_put_in_that_of_their_numbers(project: Path, capsys):
    names = {**OWN, "delivery": "ball no"}
    written(FOUND[::-1], project / "t.csv", names)
    _, made = proposal(capsys, "t.csv")
    assert made["columns"]["delivery"] == "ball no"
    decided()
    read("t")
    rows = pq.read_table("made/deliveries.parquet").to_pylist()
    played = {(row["match_id"], row["innings"], row["over"], row["delivery"]): row for row in rows}
    for ball in FOUND:
        row = played[ball["match_id"], ball["innings"], ball["over"], ball["delivery"]]
        assert row["runs_batter"] == ball["runs_batter"] and row["wides"] == ball["wides"]


def test_a_word_that_the_trade_has_not_is_left_to_a_person(project: Path, capsys):
    snicks = {"caught": "snicked"}
    found = [ball | {"dismissal": snicks.get(d := ball["dismissal"], d)} for ball in FOUND]
    written(found, project / "t.csv", OWN)
    _, made = proposal(capsys, "t.csv")
    assert made["written"]["values"] == {"dismissal": {"snicked": "TODO"}}
    with pytest.raises(UserError, match="written: values: dismissal: snicked"):
        load_sources()
    decided(snicked="caught")
    assert counted(read("t"))["wickets"] == sum(bool(ball["dismissal"]) for ball in FOUND)


@pytest.mark.parametrize(
    ("name", "data", "message"),
    [
        ("t.csv", b"1,2018-05-01,1,0\n1,2018-05-01,1,0\n", "its first line has no names"),
        ("t.csv", b"just some words\nand more\n", "no table: no row has two cells"),
        ("t.csv", b"", "no table"),
        ("t.txt", b"a,b\n1,2\n", "its name does not end in .csv"),
        ("t.parquet", b"PAR1 and then nothing", "not a readable Parquet table"),
        ("t.db", b"SQLite format 3\0 and nothing", "query: "),
        ("t.csv", b"match,over\n", "no row under its header"),
    ],
)
def test_what_is_no_table_is_said_to_be_none(project: Path, name, data, message):
    before = sources().read_bytes()
    (project / name).write_bytes(data)
    with pytest.raises(UserError, match=message):
        look([name])
    with pytest.raises(UserError, match="no such file or folder"):
        look(["nosuch.csv"])
    assert sources().read_bytes() == before


def test_names_and_cells_of_others_write_no_line_of_their_own(project: Path, capsys):
    """A cell with a line break, a name that YAML or a terminal would take for something."""
    names = OWN | {"bowler": 'Bowler: "x" # \x1b[2J', "venue": "no"}
    rows = [ball | {"venue": '"a\nsources: [] #"'} for ball in FOUND]
    written(rows, project / "t.csv", names)
    before = sources().read_text("utf-8")
    look(["t.csv"])
    said = capsys.readouterr().out
    assert "\x1b" not in said
    added = sources().read_text("utf-8").removeprefix(before)
    assert all(line.startswith("# ") for line in added.splitlines())
    assert set(load_sources()) == {"tidewater"}


def test_a_second_look_has_a_name_of_its_own(project: Path):
    semicolons(project / "balls.csv")
    look(["balls.csv"])
    look(["balls.csv"])
    text = sources().read_text("utf-8")
    assert "- id: balls\n" in text and "- id: balls-2\n" in text


def test_the_readme_shows_what_is_printed(project: Path, capsys: pytest.CaptureFixture[str]):
    text = (ROOT / "README.md").read_text("utf-8")
    shown = text.split("$ .venv/bin/python -m pipeline look balls.csv\n")[1].split("```")[0]
    semicolons(project / "balls.csv")
    look(["balls.csv"])
    printed = capsys.readouterr().out.splitlines()
    lines = [line for line in shown.splitlines() if line.strip() != "..."]
    assert len(lines) > 10 and [line for line in lines if line not in printed] == []


SIDES_OF_IT = {
    "over": ({"Over": "1.1"}, {"ball": "Over"}),
    "overs as numbers": ({"Overs": "12"}, {"over": "Overs"}),
    "a hand is no side": ({"batting_hand": "left", "bowling style": "leg break"}, {}),
    "flags of wickets": ({"wicket": "1", "out": "0"}, {}),
    "names and codes": ({"bowler": "Fay Garrick", "bowler id": "7"}, {"bowler": "bowler"}),
    "only codes": ({"bowler id": "7"}, {"bowler": "bowler id"}),
    "a season is no day": ({"season start date": "2018-05-01"}, {"date": "season start date"}),
    "numbers are no names": ({"event": "3", "venue": "4", "city": "12"}, {}),
    "total beside the bat's": ({"runs": "4", "total runs": "5"}, {"runs_batter": "runs"}),
    "cells alone": ({"col7": "run out"}, {}),
}


@pytest.mark.parametrize("case", SIDES_OF_IT)
def test_what_a_name_and_its_cells_say_together(case: str):
    """Of names that hold a word of ours, and cells that can or can't be it."""
    cells, wanted = SIDES_OF_IT[case]
    chosen = mapped([Column(name, [cell]) for name, cell in cells.items()])
    found = {ours: guess.column.name for ours, guess in chosen.items() if ours in wanted}
    assert found == wanted
    if not wanted:
        assert {*chosen} <= {"dismissal"}


SYNONYMS = {
    "match_id": ["match", "Match ID", "game_no", "fixture", "MatchKey"],
    "date": ["date", "Match Date", "start_date", "DatePlayed"],
    "season": ["season", "Year", "season_year"],
    "innings": ["innings", "Inns", "inning_no", "InningsNumber"],
    "over": ["over", "Over No", "overs", "over_number", "OverNum"],
    "batting_team": ["batting_team", "Team Batting", "bat_side", "BattingClub"],
    "bowling_team": ["bowling_team", "Fielding Side", "bowlingteam", "opposition"],
    "batter": ["batter", "Striker", "batsman_name", "batswoman", "OnStrike"],
    "non_striker": ["non_striker", "NonStriker", "non-striker name", "partner", "other batter"],
    "bowler": ["bowler", "Bowler Name", "bowler_full_name"],
    "runs_batter": ["runs_batter", "runs off bat", "batsman_runs", "BatRuns", "runs"],
    "wides": ["wides", "Wd", "wide_runs"],
    "noballs": ["noballs", "No Balls", "nb", "no_ball_runs"],
    "byes": ["byes", "Bye", "bye_runs"],
    "legbyes": ["legbyes", "LegByes", "lb", "leg_bye_runs"],
    "dismissal": ["dismissal", "how out", "WicketType", "dismissal_kind", "mode of dismissal"],
    "player_out": ["player_out", "Player Dismissed", "batsman_out", "who_out", "PlayerOut"],
    "venue": ["venue", "Ground", "stadium", "match venue"],
}
OTHERS = ["fielder", "umpire", "cumulative", "speed", "notes"]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_columns_under_any_synonym_in_any_order_are_mapped_right(data: st.DataObject):
    """Renamed, shuffled, with columns of no use between them: each is found, and none falsely."""
    names = {ours: data.draw(st.sampled_from(theirs)) for ours, theirs in SYNONYMS.items()}
    columns = [Column(names[ours], [str(ball[ours]) for ball in FOUND]) for ours in names]
    extra = data.draw(st.lists(st.sampled_from(OTHERS), unique=True))
    columns += [
        Column(name, [str(at * 7 % 150 + 20) if at % 3 else "x" for at in range(len(FOUND))])
        for name in extra
    ]
    shuffled = data.draw(st.permutations(columns))
    chosen = {ours: guess.column.name for ours, guess in mapped(shuffled).items()}
    assert chosen == names
