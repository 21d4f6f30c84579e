"""Rows of text as tools write them: stray commas, cut rows, cells of two lines; lost is nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.errors import UserError
from pipeline.ingest.row_names import MOST_COLUMNS
from tests.builders import match, read_all, rows_of, source, write_csv
from tests.refusing import BALLS, said


@pytest.mark.parametrize("header", [False, True])
def test_a_comma_at_every_lines_end_shifts_nothing(tmp_path: Path, header: bool):
    path = write_csv(tmp_path / "m.csv", rows_of(match(BALLS)))
    wanted = read_all(source(path, "delivery-csv"))[0]
    first, *lines = path.read_text("utf-8").splitlines()
    text = "\n".join([first + "," * header, *(f"{line}," for line in lines), ""])
    path.write_text(text, "utf-8")
    tables, problems = read_all(source(path, "delivery-csv"))
    assert problems == [] and tables.deliveries.equals(wanted.deliveries)
    assert tables.matches.equals(wanted.matches)


@pytest.mark.parametrize("extra", ["x", "x,y", ",x", ",,,"])
def test_rows_that_are_longer_than_the_header_are_named(tmp_path: Path, extra: str):
    path = write_csv(tmp_path / "m.csv", rows_of(match(BALLS)))
    lines = path.read_text("utf-8").splitlines()
    lines[2] += f",{extra}"
    path.write_text("\n".join([*lines, ""]), "utf-8")
    with pytest.raises(UserError) as caught:
        read_all(source(path, "delivery-csv"))
    first = str(caught.value.problems[0])
    assert f"{path}:3:1: " in first and "cells under 20 columns" in first and "\n" not in first


@pytest.mark.parametrize("rows", [1, 2])
def test_rows_that_are_shorter_than_the_header_are_named(tmp_path: Path, rows: int):
    """Their missing runs would else count as none."""
    path = write_csv(tmp_path / "m.csv", rows_of(match(BALLS)))
    lines = path.read_text("utf-8").splitlines()
    for at in range(1, 1 + rows):
        lines[at] = lines[at].rsplit(",", 2)[0]
    path.write_text("\n".join([*lines, ""]), "utf-8")
    with pytest.raises(UserError) as caught:
        read_all(source(path, "delivery-csv"))
    alike = ", as on 1 more line(s)" if rows > 1 else ""
    first = str(caught.value.problems[0])
    told = f"{path}:2:1: 18 cells under 20 columns{alike}; a blank cell needs its comma"
    assert first == told


def test_a_file_that_ends_in_the_middle_of_a_row_is_named(tmp_path: Path):
    """What the row lacks would else be read as blank."""
    path = write_csv(tmp_path / "m.csv", rows_of(match(BALLS)))
    text = path.read_text("utf-8").rstrip("\n")
    path.write_text(text[: text.rindex(",", 0, text.rindex(","))], "utf-8")
    with pytest.raises(UserError, match=r"m\.csv:4:1: the file ends in the middle of this row"):
        read_all(source(path, "delivery-csv"))


def test_hundreds_of_thousands_of_columns_are_refused_at_once(tmp_path: Path):
    path = tmp_path / "m.csv"
    path.write_text(",".join(f"c{n}" for n in range(300_000)) + "\n1\n", "utf-8")
    with pytest.raises(UserError, match=f"300,000 columns; the most is {MOST_COLUMNS:,}"):
        read_all(source(path, "delivery-csv"))


def test_a_mark_of_byte_order_and_blank_lines_are_no_harm(tmp_path: Path):
    path = write_csv(tmp_path / "m.csv", rows_of(match(BALLS)))
    lines = path.read_text("utf-8").splitlines()
    lines[2] = lines[2].replace("Northmoor", "")
    path.write_bytes(b"\xef\xbb\xbf\n" + "\n\n".join([*lines, ",,,", ""]).encode())
    _, (problem,) = read_all(source(path, "delivery-csv"))
    assert str(problem) == f"{path}:6:1: batting_team is blank"


def test_a_line_is_counted_where_a_cell_holds_line_breaks(tmp_path: Path):
    rows = [{**row, "venue": "Pebble\nField"} for row in rows_of(match(BALLS))]
    rows[2]["wides"] = "two"
    path = write_csv(tmp_path / "m.csv", rows)
    assert path.read_text("utf-8").splitlines()[5].startswith("m1,")
    (told, *_) = said(read_all(source(path, "delivery-csv"))[1])
    assert told.startswith(f"{path}:6:1: 'two' is no count for wides")


def test_the_same_mistake_on_every_row_is_one_line_with_its_matches(tmp_path: Path):
    rows = [row | {"wides": "two"} for n in range(9) for row in rows_of(match(BALLS[::2]), f"m{n}")]
    path = write_csv(tmp_path / "m.csv", [*rows, *rows_of(match(BALLS), "m9")])
    tables, problems = read_all(source(path, "delivery-csv"))
    assert tables.matches["match_id"].to_pylist() == ["m9"]
    told = [text for text in said(problems) if "is no count for wides" in text]
    assert told == [
        f"{path}:2:1: 'two' is no count for wides; 17 more rows like it, "
        "in matches m0, m1, m2, m3, m4 and 4 more"
    ]
