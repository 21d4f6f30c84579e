"""What is proposed of tables of every kind, what is said to be missing, what is refused."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

import duckdb
import pandas as pd
import pyarrow.parquet as pq
import pytest

from pipeline import batches
from pipeline.config.load import load_sources
from pipeline.errors import UserError
from pipeline.look.command import look
from tests.foreign_tables import database, semicolons, truth
from tests.looking import (
    FOUND,
    OWN,
    PLAIN,
    counted,
    decided,
    proposal,
    read,
    sources,
    stranger,
    written,
)
from tests.small_project import edit


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return stranger(tmp_path, monkeypatch)


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
    (project / "all" / "matches.csv").write_text("match_id,winner\n1,Northmoor\n", "utf-8")
    with pytest.raises(UserError, match="no CSV with rows of deliveries in it"):
        look(["all"])
    for number in "1234":
        only = [ball for ball in FOUND if ball["match_id"] == number]
        written(only, project / "all" / f"{number}.csv", OWN)
    shutil.make_archive("all", "zip", "all")
    for place in ("all", "all.zip"):
        said, made = proposal(capsys, place)
        assert f"{len(FOUND)} rows looked at" in said and made["columns"] == OWN
        assert made["path"] == place
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
    assert made["date_format"] == "TODO: DD/MM/YYYY or MM/DD/YYYY"
    with pytest.raises(UserError, match=r"sources.yaml:\d+:\d+: .*'TODO: .* once each"):
        load_sources()
    decided()
    read("t")
    days = pq.read_table(batches.files_of(Path("made"), "matches"))["date"].to_pylist()
    assert {str(day) for day in days} == {"2019-06-05"}


def test_what_is_missing_is_said_with_what_to_do(project: Path, capsys):
    names = {ours: ours for ours in PLAIN if ours not in ("non_striker", "byes", "bowling_team")}
    written(FOUND, project / "t.csv", names)
    said, _ = proposal(capsys, "t.csv")
    said = " ".join(said.split())
    assert "missing: non_striker: constants: {non_striker: not recorded}" in said
    assert "missing: bowling_team: a column made of others: query: SELECT *, CASE WHEN" in said
    assert "no column looks like byes: they count as none" in said
    text = sources().read_text("utf-8")
    assert "# TODO non_striker: constants: {non_striker: not recorded}" in text
    edit(sources(), "layout: table\n", f"layout: table\n    query: {MADE}\n")
    edit(sources(), "constants:  ", "constants:\n      non_striker: not recorded\n      #")
    edit(sources(), "columns:  ", "columns:\n      bowling_team: bowling\n      #")
    decided()
    assert counted(read("t"))["deliveries"] == len(FOUND)


def test_a_column_that_its_cells_keep_out_is_named_with_what_to_do(project: Path, capsys):
    years = [{**ball, "date": f"{ball['date'][8:]}/{ball['date'][5:7]}/20"} for ball in FOUND]
    dots = [{**ball, "runs_batter": ball["runs_batter"] or "."} for ball in years]
    written(dots, project / "t.csv", {**OWN, "runs_batter": "runs", "date": "Played"})
    said, _ = proposal(capsys, "t.csv")
    said = " ".join(said.split())
    assert "'runs' is called as runs_batter is, but holds what is no whole number (.)" in said
    assert "'Played' may hold days with years of two digits" in said
    asked = "query: " + said.split("query: ")[-1].split(" ORDER BY ...")[0]
    edit(sources(), "layout: table\n", f"layout: table\n    {asked} ORDER BY match_id\n")
    edit(sources(), "columns:  ", "columns:\n      date: day\n      runs_batter: runs\n      #")
    dot = 'written:\n      values: {runs_batter: {".": "0"}}\n    constants:  '
    edit(sources(), "constants:  ", dot)
    decided()
    report = counted(read("t"))
    assert report["deliveries"] == len(FOUND)


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
    rows = pq.read_table(batches.files_of(Path("made"), "deliveries")).to_pylist()
    played = {(row["match_id"], row["innings"], row["over"], row["delivery"]): row for row in rows}
    for ball in FOUND:
        row = played[ball["match_id"], ball["innings"], ball["over"], ball["delivery"]]
        assert row["runs_batter"] == ball["runs_batter"] and row["wides"] == ball["wides"]


def test_a_dash_for_nobody_is_nobody(project: Path, capsys):
    found = [ball | {"player_out": ball["player_out"] or "-"} for ball in FOUND]
    found = [ball | {"dismissal": ball["dismissal"].title() or "Not Out"} for ball in found]
    written(found, project / "t.csv", OWN)
    _, made = proposal(capsys, "t.csv")
    assert made["written"]["blank"] == ["-"]
    assert made["written"]["values"]["dismissal"]["Not Out"] == ""
    decided()
    assert counted(read("t"))["wickets"] == sum(bool(ball["dismissal"]) for ball in FOUND)
    assert "-" not in pq.read_table("made/people.parquet")["name"].to_pylist()


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
    before, ids = sources().read_text("utf-8"), list(load_sources())
    look(["t.csv"])
    said = capsys.readouterr().out
    assert "\x1b" not in said
    added = sources().read_text("utf-8").removeprefix(before)
    assert all(line.startswith("# ") for line in added.splitlines())
    assert list(load_sources()) == ids


def test_a_second_look_has_a_name_of_its_own(project: Path):
    semicolons(project / "balls.csv")
    look(["balls.csv"])
    look(["balls.csv"])
    text = sources().read_text("utf-8")
    assert "- id: balls\n" in text and "- id: balls-2\n" in text
