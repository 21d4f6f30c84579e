"""The quality page of untidy data: people by name, a head for every column, room for all."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from tests.browsing import PHONE, browser, sized
from tests.builders import (
    FIXES,
    GROUNDS,
    cleaned_sources,
    delivery,
    match,
    quality_of,
    rows_of,
    source,
    write_csv,
    write_zip,
)

PLAYERS = """id,name,batting_hand,bowling_style,tags
id-a,Ann Batt,lefft,"RM, OB",
id-b,,LHB,juggler,
id-q,Quentin Bowl,,"Legbreak, left-arm orthodox",
id-gone,Gone,,"RM, LB",
"A Batt (female, Northmoor)",,,LBG,
"""
LONG = "a-match-of-a-name-that-nobody-would-ever-wish-to-read-aloud-2020-06-01"


def untidy(folder: Path) -> Path:
    """Dropped copies that differ, cells that can't be read, odd play, several styles, a fix."""
    odd = {**delivery(1, {"kind": "run out", "player_out": "C Batt"}), "non_striker": "A Batt"}
    bowls = {**delivery(2), "bowler": "B Batt"}
    stray: dict[str, Any] = {**match([odd, bowls]), "weather": "fair"}
    reply = {"team": "Southfen", "overs": [], "target": {"runs": 9, "overs": "fifty"}}
    stray["innings"].append(reply)
    other = match([delivery(4)], venue="Pebble Fd", city="Pebbleton", toss={"winner": "Southfen"})
    short = match([delivery(1)], overs=1)
    short["innings"][0]["overs"].append({"over": 3, "deliveries": [delivery(6)]})
    nobody = match([delivery(1)], registry={}, gender="male", match_type="twenty-over")
    members = {"m1.json": stray, f"{LONG}.json": short, "m3.json": nobody, "m4.json": "{"}
    twice = rows_of(match([delivery(1)]), "m9")
    sources = [
        source(write_zip(folder / "first.zip", members), id="first", on_error="quarantine"),
        source(write_zip(folder / "second.zip", {"m1.json": other}), id="second"),
        source(write_csv(folder / "rows.csv", twice), "delivery-csv", id="rows"),
    ]
    fix = "m1,,,,,,city,,Pebbleton,not given,Scorebook page 3,Researcher,2026-11-25\n"
    fix += ",,,,id-b,,bowling_style,juggler,jugler,why,book,me,2026-11-25\n"
    fix += "m1,1,1,2,,,bowler_id,id-b,id-q,why,book,me,2026-11-25\n"
    sheets = {"players": PLAYERS, "grounds": GROUNDS, "corrections": FIXES + fix}
    return cleaned_sources(folder, sources, sheets)


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy"))


def test_people_are_called_by_name_with_their_ids(data: Path):
    odd = quality_of(data)["odd"]
    assert odd["bowlers_of_several_styles"]["examples"] == [
        "Ann Batt (id-a): RM, OB (counted as medium, also finger spin)",
        "Quentin Bowl (id-q): Legbreak, left-arm orthodox (counted as wrist spin, also finger "
        "spin)",
    ]
    at = "m1, innings 1"
    assert odd["batters_at_both_ends"]["examples"][0] == (
        f"{at}, over 1, delivery 1: A Batt (id-a)"
    )
    assert odd["dismissed_at_neither_end"]["examples"] == [
        f"{at}, over 1, delivery 1: C Batt (id-c), run out"
    ]
    assert odd["bowlers_who_bat_in_the_innings"]["examples"] == [f"{at}: B Batt (id-b)"]


def test_every_example_that_names_an_id_names_its_owner(data: Path):
    odd = quality_of(data)["odd"]
    lines = [
        line for each in odd.values() for line in each["examples"] if "players.csv" not in line
    ]
    alone = [line for line in lines if re.search(r"(?<![(-])\bid-[a-z]+\b(?!\))", line)]
    assert alone == []


def test_corrections_name_people(data: Path):
    page = (data / "quality.html").read_text("utf-8")
    assert "player B Batt (id-b)</th>" in page
    was, now = "B Batt (id-b)", "Q Bowl (id-q)"
    assert f'<td class="text">{was}</td><td class="text">{now}</td>' in page
    assert '<td class="text">blank</td><td class="text">Pebbleton</td>' in page


def test_one_is_told_as_one_and_who_is_unknown_is_of_no_gender(data: Path):
    odd = quality_of(data)["odd"]
    assert odd["overs_of_odd_length"]["examples"][0].endswith("over 1: 1 ball")
    assert odd["match_types_of_no_format"]["examples"][0] == "twenty-over: 1 match"
    assert odd["sides_of_both_genders"]["examples"] == [
        "Northmoor: female, male",
        "Southfen: female, male",
    ]
    assert odd["target_overs_that_cannot_be_read"]["examples"] == ["m1, innings 2: fifty"]


def test_a_difference_between_copies_is_a_row_of_its_own(data: Path):
    page = (data / "quality.html").read_text("utf-8")
    row = '<td class="text">venue</td><td class="text">Pebble Field</td><td class="text">Pebble Fd'
    assert row in page
    assert "toss_winner" not in page and "toss winner" in page


def test_every_column_has_a_head(data: Path):
    page = (data / "quality.html").read_text("utf-8")
    wide = re.findall(r"<table>(.*?)</table>", page, re.DOTALL)
    assert len(wide) == 3
    for table in wide:
        heads = table.count('scope="col"')
        first = re.search(r"<tbody>\s*<tr>(.*?)</tr>", table, re.DOTALL)
        assert first and len(re.findall(r"<t[hd][ >]", first[1])) == heads


def test_nothing_runs_out_of_a_phone(data: Path):
    with browser() as made:
        page = sized(made, PHONE).new_page()
        page.goto((data / "quality.html").as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE[0]
