"""Corrections decide who is who as the files do: no id is another's, and nobody is left over."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.errors import UserError
from tests.builders import (
    FIXES,
    cleaned,
    cleaned_sources,
    delivery,
    match,
    quality_of,
    rows,
    rows_of,
    source,
    write_csv,
)

OUT = delivery(wicket={"kind": "bowled", "player_out": "A Batt"})
TABLES = ("players", "deliveries", "dismissals", "matches")
WHO = {f"{name} (Northmoor)" for name in ("A Batt", "B Batt")} | {"Q Bowl (Southfen)"}


def fix(match_id: str, old: str, new: str) -> str:
    return f"{match_id},,,,,,gender,{old},{new},why,book,me,2026-11-25\n"


def league(
    folder: Path, genders: dict[str, str], *fixes: str, people: str = "", other: str = ""
) -> Path:
    """The data of some matches between the same names, of the genders that the file gives.

    In match `other` the batter's name is spelt 'A. Batt'.
    """
    folder.mkdir(parents=True, exist_ok=True)
    spelt = {"striker": "A. Batt"}
    made = [
        {**row, "gender": gender, **(spelt if name == other else {})}
        for name, gender in genders.items()
        for row in rows_of(match([delivery(1), OUT]), name)
    ]
    text = {"corrections": FIXES + "".join(fixes)}
    if people:
        text["people"] = "id,same_as,reason,source\n" + people
    given = source(write_csv(folder / "m.csv", made), "delivery-csv")
    return cleaned_sources(folder, [given], text)


def told(data: Path) -> dict[str, Any]:
    """All that is said of people."""
    return {**{name: rows(data, name) for name in TABLES}, "odd": quality_of(data)["odd"]}


def of(gender: str) -> set[str]:
    return {each.replace(")", f", {gender})") for each in WHO}


@pytest.mark.parametrize(
    ("given", "steps", "right"),
    [
        ("", ["male"], "male"),
        ("", ["female", "male"], "male"),
        ("", ["male", "female"], "female"),
        ("female", ["male"], "male"),
        ("male", ["female"], "female"),
        ("male", ["unknown"], ""),
    ],
)
def test_a_gender_put_right_is_as_if_the_file_had_said_it(
    tmp_path: Path, given: str, steps: list[str], right: str
):
    """Two women of one name; the third match is a man's, not known, or a woman's."""
    known = {"m1": "female", "m2": "female"}
    before = [given or "unknown", *steps]
    fixes = [fix("m3", old, new) for old, new in zip(before, steps, strict=False)]
    mended = told(league(tmp_path / "mended", {**known, "m3": given}, *fixes))
    as_read = told(league(tmp_path / "right", {**known, "m3": right}))
    assert mended == as_read
    ids = {row["id"] for row in mended["players"]}
    assert ids == (of("female") | of("male") if right == "male" else WHO)
    on_balls = {row["batter_id"] for row in mended["deliveries"]}
    assert on_balls | {row["non_striker_id"] for row in mended["deliveries"]} <= ids


def test_nobody_else_is_moved_by_a_correction(tmp_path: Path):
    """Of three matches one is corrected: the ids of both others stay."""
    genders = {"m1": "female", "m2": "male", "m3": ""}
    before = rows(league(tmp_path / "before", genders), "deliveries")
    after = rows(league(tmp_path / "after", genders, fix("m3", "unknown", "male")), "deliveries")
    kept = [row for row in before if row["match_id"] != "m3"]
    assert [row for row in after if row["match_id"] != "m3"] == kept
    assert {row["bowler_id"] for row in after if row["match_id"] == "m3"} == {
        "Q Bowl (Southfen, male)"
    }


def test_a_copy_that_was_dropped_parts_nobody(tmp_path: Path):
    kept, other = (match([OUT], gender=gender, registry={}) for gender in ("female", "male"))
    data = cleaned(tmp_path, first={"m1.json": kept}, second={"m1.json": other})
    assert {row["id"] for row in rows(data, "players")} == WHO
    assert {row["bowler_id"] for row in rows(data, "deliveries")} == {"Q Bowl (Southfen)"}
    assert quality_of(data)["odd"]["people_without_id_of_both_genders"]["count"] == 0


def test_sides_are_of_the_genders_that_corrections_give(tmp_path: Path):
    """People with ids of a file's own are not parted, but theirs is the gender of their match."""
    found = {"m1.json": match([OUT]), "m2.json": match([OUT], gender="male")}
    sides = "sides_of_both_genders"
    assert quality_of(cleaned(tmp_path / "before", only=found))["odd"][sides]["count"] == 2
    text = {"corrections": FIXES + fix("m2", "male", "female")}
    data = cleaned(tmp_path / "after", text, only=found)
    assert quality_of(data)["odd"][sides]["count"] == 0
    assert {row["id"] for row in rows(data, "players")} == {"id-a", "id-b", "id-q"}


def ball(number: int, field: str, old: str, new: str) -> str:
    return f"m1,1,1,{number},,,{field},{old},{new},why,book,me,2026-11-25\n"


@pytest.mark.parametrize(("fixes", "left"), [(1, True), (2, False)])
def test_who_is_taken_off_every_delivery_is_nobody(tmp_path: Path, fixes: int, left: bool):
    """A slip of a name on two balls: while one of them stands so does its player."""
    slip = {**delivery(1), "batter": "A. Bat"}
    out = {**OUT, "batter": "A. Bat", "wickets": [{"kind": "bowled", "player_out": "A. Bat"}]}
    lines = [
        ball(1, "batter_id", "A. Bat (Northmoor)", "id-a"),
        ball(2, "batter_id", "A. Bat (Northmoor)", "id-a"),
        ball(2, "player_out_id", "A. Bat (Northmoor)", "id-a"),
    ]
    made = lines[:1] if fixes == 1 else lines
    found = {"m1.json": match([slip, out, delivery(1)])}
    data = cleaned(tmp_path, {"corrections": FIXES + "".join(made)}, only=found)
    ids = {row["id"] for row in rows(data, "players")}
    assert ids == {"id-a", "id-b", "id-q"} | ({"A. Bat (Northmoor)"} if left else set())


def test_a_merge_of_somebody_whom_a_correction_joins_again_is_told(tmp_path: Path):
    merge = '"A Batt (Northmoor, male)",B Batt (Northmoor),same,book\n'
    genders = {"m1": "female", "m2": "male"}
    data = league(tmp_path / "before", genders, people=merge)
    assert "A Batt (Northmoor, male)" not in {row["id"] for row in rows(data, "players")}
    said = (
        r"people\.csv:2:1: nobody in the data has the id 'A Batt \(Northmoor, male\)' "
        r"\(did you mean 'A Batt \(Northmoor\)'\?\); drop the line"
    )
    with pytest.raises(UserError, match=said):
        league(tmp_path / "after", genders, fix("m2", "male", "female"), people=merge)


SPELT = "A. Batt (Northmoor),A Batt (Northmoor),one,book\n"
ALL = {"m1": "female", "m2": "male", "m3": "male"}


def test_a_merge_onto_a_name_of_two_people_ends_at_the_one_of_the_same_gender(tmp_path: Path):
    """And from there at whoever that one is: a chain goes on gender by gender."""
    lines = SPELT + '"A Batt (Northmoor, male)",Q Bowl (Southfen),one,book\n'
    data = league(tmp_path, ALL, people=lines, other="m3")
    batters = {row["match_id"]: row["batter_id"] for row in rows(data, "deliveries")}
    him = "Q Bowl (Southfen, male)"
    assert batters == {"m1": "A Batt (Northmoor, female)", "m2": him, "m3": him}
    outs = {row["match_id"]: row["player_out_id"] for row in rows(data, "dismissals")}
    assert outs == batters
    ids = {row["id"] for row in rows(data, "players")}
    assert ids == of("female") | of("male") - {"A Batt (Northmoor, male)"}


def test_a_circle_that_only_one_gender_goes_round_is_told(tmp_path: Path):
    lines = SPELT + '"A Batt (Northmoor, male)",A. Batt (Northmoor),one,book\n'
    with pytest.raises(UserError) as caught:
        league(tmp_path, ALL, people=lines, other="m3")
    told = [str(each) for each in caught.value.problems]
    way = "'A. Batt (Northmoor)', 'A Batt (Northmoor, male)', 'A. Batt (Northmoor)'"
    assert any("people.csv:2:1: in matches of gender male 'A. Batt" in each for each in told)
    assert any(way in each for each in told) and not any("female" in each for each in told)
