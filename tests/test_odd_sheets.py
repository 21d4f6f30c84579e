"""Sheets as people and spreadsheets leave them, and cells that a spreadsheet would run."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from pipeline.clean.sheets import read_players
from pipeline.csv_files import csv_text, neutral, plain, read_sheet
from pipeline.errors import UserError
from pipeline.sheet_text import filled


def test_a_pipe_is_no_sheet(tmp_path: Path):
    os.mkfifo(tmp_path / "sheet.csv")
    with pytest.raises(UserError, match=r"sheet\.csv: not a file"):
        read_sheet(str(tmp_path / "sheet.csv"), ("a",))


@pytest.mark.parametrize("ending", [",", ",,"])
def test_commas_at_the_end_of_a_sheets_lines_are_nothing(tmp_path: Path, ending: str):
    path = tmp_path / "sheet.csv"
    path.write_text(f"a,b\n1,2{ending}\n", "utf-8")
    assert read_sheet(str(path), ("a", "b")) == [(2, {"a": "1", "b": "2"})]


def test_the_same_mistake_on_many_lines_of_a_sheet_is_one_problem(tmp_path: Path):
    path = tmp_path / "sheet.csv"
    path.write_text("a,b\n" + "1,2,3\n" * 900, "utf-8")
    with pytest.raises(UserError) as caught:
        read_sheet(str(path), ("a", "b"))
    more = "more cells than the 2 columns; quote commas"
    assert str(caught.value) == f"{path}:2:1: {more} (and so on 899 more lines)"
    path.write_text("a,b\n" + "1,2,3\n" * 3, "utf-8")
    with pytest.raises(UserError) as caught:
        read_sheet(str(path), ("a", "b"))
    assert [str(each) for each in caught.value.problems] == [
        f"{path}:{line}:1: {more}" for line in (2, 3, 4)
    ]


@pytest.mark.parametrize(
    "cell",
    ["=1+1", "+cmd", "-2+3", "@SUM(A1)", "\tx", "\rx", "\n=1", "＝1", "+1.1 pts"],
)
def test_cells_that_a_spreadsheet_would_run_are_made_harmless(cell: str):
    """The characters are those of OWASP's page "CSV Injection"."""
    assert neutral(cell) == f"'{cell}"
    assert plain(neutral(cell)) == cell


@pytest.mark.parametrize("cell", ["-0.48", "+3.3%", "1,204", "plain", "−0.5 to +1", "", "'quoted"])
def test_numbers_and_plain_text_stay(cell: str):
    assert neutral(cell) == cell and plain(cell) == cell


def test_exported_cells_come_back_as_they_were(tmp_path: Path):
    path = tmp_path / "sheet.csv"
    path.write_text(csv_text([{"a": '=HYPERLINK("x")', "b": "-5"}], ("a", "b")), "utf-8")
    assert path.read_text("utf-8").splitlines()[1].startswith("\"'=")
    assert read_sheet(str(path), ("a", "b")) == [(2, {"a": '=HYPERLINK("x")', "b": "-5"})]


def sheet(tmp_path: Path, text: str) -> str:
    (tmp_path / "sheet.csv").write_text(text, "utf-8")
    return str(tmp_path / "sheet.csv")


def test_a_quote_that_is_never_closed_does_not_swallow_the_lines_below(tmp_path: Path):
    with pytest.raises(UserError, match=r"sheet\.csv:3:1: not a readable CSV: .*do not pair"):
        read_sheet(sheet(tmp_path, 'a,b\n1,2\n3,"4\n5,6\n'), ("a", "b"))
    with pytest.raises(UserError, match=r"sheet\.csv:2:1: not a readable CSV"):
        read_sheet(sheet(tmp_path, 'a,b\n1,"2\n3,"4\n'), ("a", "b"))


def test_commas_at_the_end_of_a_header_are_nothing(tmp_path: Path):
    path = sheet(tmp_path, "\ufeffa,b,,\r\n1,2,,\r\n")
    assert read_sheet(path, ("a", "b")) == [(2, {"a": "1", "b": "2"})]
    with pytest.raises(UserError, match=r"sheet\.csv:2:1: more cells than the 2 columns"):
        read_sheet(sheet(tmp_path, "a,b,,\n1,2,3,\n"), ("a", "b"))
    text = filled("a,b,,\n1,,,\n", {2: {"b": "2", "c": "3"}}, [], ("a", "b", "c"))
    assert read_sheet(sheet(tmp_path, text), ("a", "b", "c")) == [
        (2, {"a": "1", "b": "2", "c": "3"})
    ]


def test_a_column_that_stands_twice_is_told(tmp_path: Path):
    with pytest.raises(UserError, match=r"sheet\.csv:1:1: column 'b' stands twice"):
        read_sheet(sheet(tmp_path, "a,b,b\n1,2,3\n"), ("a", "b"))


def test_a_player_without_an_id_is_told(tmp_path: Path):
    text = "id,name,batting_hand,bowling_style,tags\n,A Batt,left,,\n"
    with pytest.raises(UserError, match=r"sheet\.csv:2:1: id is blank"):
        read_players(sheet(tmp_path, text))
