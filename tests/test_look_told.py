"""What `look` tells a newcomer of odd tables: its count of what is to decide, and its doubts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from pipeline.look.command import look
from tests.looking import sources, stranger

BALLS = [(f"{over}", f"{ball}") for over in range(4) for ball in range(1, 7)]


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return stranger(tmp_path, monkeypatch)


def told(capsys: pytest.CaptureFixture[str], header: str, row: str) -> tuple[str, list[str]]:
    """What is said of a table with a row a ball, and the keys that are to decide.

    The count, the keys and the marks in the file must agree.
    """
    rows = [row.format(over=over, ball=ball, wide=int(ball == "6")) for over, ball in BALLS]
    Path("t.csv").write_text("\n".join([header, *rows, ""]), "utf-8")
    look(["t.csv"])
    said = " ".join(capsys.readouterr().out.split())
    count, listed = re.search(r"its (\d+) TODO \(([^)]*)\)", said).groups()
    keys = listed.split(", ")
    proposed = sources().read_text("utf-8").partition("layout: table")[2]
    marked = [line for line in proposed.splitlines() if "TODO" in line]
    assert int(count) == len(keys) == len(set(keys)) == len(marked)
    return said, keys


def test_missing_columns_are_counted_and_stand_where_they_are_written(project: Path, capsys):
    header = "Fixture,Bowled by,Facing,Over.Ball,Off bat"
    said, keys = told(capsys, header, "Moor v Fen,Q. Bowl,A. Batt,{over}.{ball},1")
    absent = ["date", "season", "innings", "batting_team", "bowling_team", "non_striker"]
    assert keys == [
        *("title", "publisher", "licence"),
        *absent,
        *("competition", "match_type", "gender"),
    ]
    assert all(f"missing: {name}: " in said for name in absent)
    assert "bowler Bowled by sure" in said
    text = sources().read_text("utf-8")
    assert re.search(r"#       runs_batter: Off bat .*\n#       # TODO date: the first day", text)


def test_a_table_of_another_kind_is_said_to_be_one(project: Path, capsys):
    said, keys = told(capsys, "station,day,rain_mm", "Moor,2019-05-0{ball},{over}")
    assert "this does not look like a table with a row a delivery (found of it: date)" in said
    assert {"match_id", "bowler", "over", "runs_batter"} <= set(keys)


def test_the_number_of_a_ball_is_not_taken_for_byes(project: Path, capsys):
    header = "MatchID,Inns,O,B,W,Batsman,Non-Striker,Bowler"
    said, _ = told(capsys, header, "7,A,{over},{ball},{wide},ann,bea,quin")
    assert "byes B " not in said and "over O sure" in said and "wides W sure" in said
    assert "'Inns' is called as innings is, but holds what is no whole number (A)" in said
    assert "does not look like" not in said


def test_short_names_and_words_of_ones_own_are_told(project: Path, capsys):
    header = "game_no,played_on,inn,ov,bl,striker,partner,bwlr,tot_runs,wkt"
    said, keys = told(capsys, header, "7,2019-05-01,1,{over},{ball},ann,bea,quin,4,bwd")
    assert "over ov sure" in said and "bowler bwlr sure" in said
    assert "'tot_runs' counts extras too" in said and "runs_batter" in keys
    assert "'wkt' is called as dismissal is, but its words (bwd) are not the trade's" in said
