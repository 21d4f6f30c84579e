"""People without an id of their own: told by name and side, and never by what is unknown."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.clean.identities import of_today
from pipeline.errors import UserError
from tests.builders import (
    FIXES,
    PLAYERS,
    cleaned,
    cleaned_sources,
    delivery,
    match,
    quality_of,
    read_all,
    rows,
    rows_of,
    source,
    write_csv,
    write_zip,
)

NOBODY: dict[str, Any] = {"registry": {"people": {}}}
NAMED = {"A Batt (Northmoor)", "B Batt (Northmoor)", "Q Bowl (Southfen)"}


def ids(data: Path, match_id: str) -> set[str]:
    played = [row for row in rows(data, "deliveries") if row["match_id"] == match_id]
    return {row[f"{role}_id"] for row in played for role in ("batter", "non_striker", "bowler")}


def of_gender(gender: str, **info: Any) -> dict[str, Any]:
    return match([delivery(1)], gender=gender, **NOBODY, **info)


@pytest.mark.parametrize("gender", ["", "female", "male"])
def test_a_gender_that_is_given_later_moves_no_id(tmp_path: Path, gender: str):
    path = write_csv(
        tmp_path / "m.csv", [{**row, "gender": gender} for row in rows_of(of_gender("male"))]
    )
    tables, problems = read_all(source(path, "delivery-csv"))
    assert problems == []
    assert {row["id"] for row in tables.people.to_pylist()} == NAMED


def test_a_name_of_one_side_known_of_both_genders_is_two_people(tmp_path: Path):
    found = {"m1.json": of_gender("female"), "m2.json": of_gender("male")}
    data = cleaned(tmp_path, only=found)
    assert ids(data, "m1") == {each.replace(")", ", female)") for each in NAMED}
    assert ids(data, "m2") == {each.replace(")", ", male)") for each in NAMED}
    odd = quality_of(data)["odd"]["people_without_id_of_both_genders"]
    assert odd["count"] == 3
    assert odd["examples"][0] == "A Batt (Northmoor): female, male"
    players = rows(data, "players")
    assert {row["id"] for row in players} == ids(data, "m1") | ids(data, "m2")
    assert all(row["label"] == row["id"] for row in players)  # a name that is theirs alone


def test_those_of_both_genders_stay_when_a_gender_is_given_elsewhere(tmp_path: Path):
    """Another side's match, of which the gender is not known and then is."""
    other = {"teams": ["Eastholm", "Westfold"], "players": {"Eastholm": [], "Westfold": []}}
    before = {"m1.json": of_gender("female"), "m2.json": of_gender("male")}

    def third(gender: str) -> dict[str, Any]:
        made = of_gender(gender, **other)
        made["innings"][0]["team"] = "Eastholm"
        return made

    told = [
        cleaned(tmp_path / gender, only={**before, "m3.json": third(gender)})
        for gender in ("female", "male")
    ]
    for name in ("m1", "m2", "m3"):
        assert ids(told[0], name) == ids(told[1], name)
    assert ids(told[0], "m3") == {
        *("A Batt (Eastholm)", "B Batt (Eastholm)"),
        "Q Bowl (Westfold)",
    }


def test_what_is_of_neither_known_gender_keeps_the_plain_id(tmp_path: Path):
    """And moves alone when its gender is given."""
    known = {"m1.json": of_gender("female"), "m2.json": of_gender("male")}
    without = rows_of(of_gender("female"), "m3")
    given = [{**row, "gender": "male"} for row in without]
    told = []
    for name, made in (("before", without), ("after", given)):
        folder = tmp_path / name
        folder.mkdir()
        sources = [
            source(write_zip(folder / "m.zip", known), id="files"),
            source(write_csv(folder / "m.csv", made), "delivery-csv", id="rows"),
        ]
        told.append(cleaned_sources(folder, sources, {}))
    assert ids(told[0], "m3") == NAMED
    assert ids(told[1], "m3") == ids(told[1], "m2")
    for match_id in ("m1", "m2"):
        assert ids(told[0], match_id) == ids(told[1], match_id)


def test_two_sources_of_two_genders_are_not_made_one(tmp_path: Path):
    data = cleaned(
        tmp_path, women={"m1.json": of_gender("female")}, men={"m2.json": of_gender("male")}
    )
    assert not ids(data, "m1") & ids(data, "m2")


def test_people_with_ids_of_their_own_are_told_by_these(tmp_path: Path):
    found = {"m1.json": match([delivery(1)]), "m2.json": match([delivery(1)], gender="male")}
    data = cleaned(tmp_path, only=found)
    assert ids(data, "m1") == ids(data, "m2") == {"id-a", "id-b", "id-q"}
    assert quality_of(data)["odd"]["people_without_id_of_both_genders"]["count"] == 0


def test_those_told_apart_can_be_merged_and_filled_in(tmp_path: Path):
    """Dismissals follow, too; a merge of one of the two leaves the other."""
    bowled = delivery(wicket={"kind": "bowled", "player_out": "A Batt"})
    found = {
        f"m{n}.json": match([bowled], gender=gender, **NOBODY)
        for n, gender in enumerate(("female", "male"), start=1)
    }
    merges = 'id,same_as,reason,source\n"A Batt (Northmoor, male)",id-a,same,book\n'
    players = PLAYERS + '"Q Bowl (Southfen, male)",,,LBG,\n'
    data = cleaned(tmp_path, {"people": merges, "players": players}, only=found)
    outs = {row["match_id"]: row["player_out_id"] for row in rows(data, "dismissals")}
    assert outs == {"m1": "A Batt (Northmoor, female)", "m2": "id-a"}
    kinds = {row["match_id"]: row["bowler_kind"] for row in rows(data, "deliveries")}
    assert kinds == {"m1": "unknown", "m2": "spin"}


def test_who_is_merged_with_a_name_of_two_people_is_the_one_of_the_same_gender(tmp_path: Path):
    other = of_gender("female", dates=["2020-06-02"])
    other["innings"][0]["overs"][0]["deliveries"][0]["batter"] = "A. Batt"
    found = {"m1.json": of_gender("female"), "m2.json": of_gender("male"), "m3.json": other}
    merges = "id,same_as,reason,source\nA. Batt (Northmoor),A Batt (Northmoor),one,book\n"
    data = cleaned(tmp_path, {"people": merges}, only=found)
    assert ids(data, "m3") == ids(data, "m1") != ids(data, "m2")
    assert {row["id"] for row in rows(data, "players")} == ids(data, "m1") | ids(data, "m2")


def test_a_merge_holds_where_a_correction_gives_the_match_a_gender(tmp_path: Path):
    path = write_csv(tmp_path / "m.csv", rows_of(match([delivery(1)])))
    merges = "id,same_as,reason,source\nA Batt (Northmoor),id-a,same,book\n"
    fix = "m1,,,,,,gender,unknown,male,why,book,me,2026-11-25\n"
    text = {"people": merges, "corrections": FIXES + fix, "players": PLAYERS}
    data = cleaned_sources(tmp_path, [source(path, "delivery-csv")], text)
    assert {row["batter_id"] for row in rows(data, "deliveries")} == {"id-a"}


def test_a_gender_that_is_none_is_refused_with_its_line(tmp_path: Path):
    path = write_csv(tmp_path / "m.csv", rows_of(match([delivery(1)])))
    fix = "m1,,,,,,gender,unknown,femal,why,book,me,2026-11-25\n"
    with pytest.raises(UserError, match="2:1: new 'femal': expected female, male"):
        cleaned_sources(tmp_path, [source(path, "delivery-csv")], {"corrections": FIXES + fix})


def test_ids_of_the_older_form_are_named_with_what_to_write(tmp_path: Path):
    found = {"m1.json": of_gender("female")}
    players = PLAYERS + '"Q Bowl (unknown, Southfen)",,,LBG,\n"Q Bowl (female, Nowhere)",,,LBG,\n'
    data = cleaned(tmp_path, {"players": players}, only=found)
    told = quality_of(data)["odd"]["ids_of_old_form"]
    assert told["count"] == 1
    assert told["examples"] == [
        "players.csv, line 4: id 'Q Bowl (unknown, Southfen)' is of nobody; ids no longer hold "
        "gender: write 'Q Bowl (Southfen)'"
    ]
    assert {row["bowler_kind"] for row in rows(data, "deliveries")} == {"unknown"}
    merges = 'id,same_as,reason,source\n"A Batt (female, Northmoor)",id-a,same,book\n'
    with pytest.raises(UserError, match=r"people\.csv:2:1: .* write 'A Batt \(Northmoor\)'"):
        cleaned(tmp_path / "merged", {"people": merges}, only=found)
    fix = ',,,,"Q Bowl (female, Southfen)",,name,,Q,why,book,me,2026-11-25\n'
    with pytest.raises(UserError, match=r"hold gender: write 'Q Bowl \(Southfen\)'"):
        cleaned(tmp_path / "fixed", {"corrections": FIXES + fix}, only=found)


def test_an_id_of_the_older_form_leads_to_the_one_of_today():
    there = {"A (X)", "B (X, male)", "B (X)", "C (male, X)", "C (X)"}
    assert of_today("A (male, X)", there) == of_today("A (unknown, X)", there) == "A (X)"
    assert of_today("B (male, X)", there) == "B (X, male)"
    assert of_today("C (male, X)", there) is None  # it is there as it stands
    assert of_today("D (male, X)", there) is None
    assert of_today("A (X)", there) is None
