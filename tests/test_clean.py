"""Clean: sources merged, duplicates dropped, sheets joined, the unknown counted."""

from __future__ import annotations

from pathlib import Path

import pyarrow.parquet as pq
import pytest

from pipeline.clean.sheets import read_grounds, read_players
from pipeline.errors import UserError
from tests.builders import GROUNDS, PLAYERS, cleaned, delivery, match, quality_of


def revised(runs: int, revision: int) -> dict:
    found = match([delivery(runs)])
    found["meta"]["revision"] = revision
    return found


def test_the_highest_revision_is_kept_with_its_deliveries_only(tmp_path: Path):
    data = cleaned(
        tmp_path,
        first={"m1.json": revised(1, 1), "m2.json": revised(2, 3)},
        second={"m1.json": revised(4, 2), "m2.json": revised(6, 3)},
    )
    rows = pq.read_table(data / "deliveries.parquet").to_pylist()
    assert {(row["match_id"], row["runs_batter"]) for row in rows} == {("m1", 4), ("m2", 2)}
    assert len(rows) == 2
    kept = pq.read_table(data / "matches.parquet").to_pylist()
    assert [row["source"] for row in kept] == ["second", "first"]
    counts = quality_of(data)["counts"]
    assert counts["matches_read"] == 4 and counts["duplicates_dropped"] == 2


def test_players_and_grounds_are_joined_and_the_unknown_counted(tmp_path: Path):
    other = delivery(1)
    other.update(batter="B Batt", non_striker="A Batt", bowler="C Batt")
    data = cleaned(tmp_path, only={"m1.json": match([delivery(1), other])})
    first, second = pq.read_table(data / "deliveries.parquet").to_pylist()
    known = ("bowler_kind", "bowler_arm", "bowler_style", "batter_hand", "batting_position")
    assert [first[name] for name in known] == ["spin", "right", "wrist spin", "left", 1]
    assert [second[name] for name in known] == ["unknown", "unknown", "unknown", "unknown", 2]
    (row,) = pq.read_table(data / "matches.parquet").to_pylist()
    assert (row["ground"], row["region"], row["country"]) == ("The Pebbles", "coast", "unknown")
    half = dict.fromkeys(("bowler_kind", "bowler_arm", "batter_hand"), 0.5)
    assert quality_of(data)["coverage"] == {**half, "country": 0.0}


def test_spellings_of_a_venue_are_one_ground(tmp_path: Path):
    grounds = GROUNDS + "Pebble Fd,The Pebbles,Pebbleton,,coast\n"
    venues = ("Pebble Field", "Pebble Fd", "Pebble Field ", "Elsewhere")
    found = {f"m{i}.json": match([delivery(1)], venue=name) for i, name in enumerate(venues)}
    data = cleaned(tmp_path, {"grounds": grounds}, only=found)
    rows = pq.read_table(data / "matches.parquet").to_pylist()
    assert [row["ground"] for row in rows] == ["The Pebbles"] * 3 + ["Elsewhere"]


def test_a_blank_ground_keeps_the_venue(tmp_path: Path):
    grounds = "venue,ground,city,country,region\nPebble Field,,,Shoreland,\n"
    data = cleaned(tmp_path, {"grounds": grounds}, only={"m1.json": match([delivery(1)])})
    (row,) = pq.read_table(data / "matches.parquet").to_pylist()
    assert (row["ground"], row["country"]) == ("Pebble Field", "Shoreland")


def test_batting_position_is_the_order_of_coming_in(tmp_path: Path):
    """The opener at the other end is second, though the third faced a ball before."""
    out = delivery(wicket={"kind": "bowled", "player_out": "A Batt"})
    third = {**delivery(1), "batter": "C Batt"}
    second = {**delivery(1), "batter": "B Batt", "non_striker": "C Batt"}
    data = cleaned(tmp_path, only={"m1.json": match([out, third, second])})
    rows = pq.read_table(data / "deliveries.parquet").to_pylist()
    assert [row["batting_position"] for row in rows] == [1, 3, 2]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (PLAYERS + "id-a,Again,left,,\n", ":4:1: id 'id-a' stands on line 2 too"),
        (PLAYERS.replace("batting_hand", "hand"), ":1:1: no column batting_hand"),
    ],
)
def test_mistakes_in_the_players_sheet_are_placed(tmp_path: Path, text: str, said: str):
    (tmp_path / "players.csv").write_text(text, "utf-8")
    with pytest.raises(UserError) as caught:
        read_players(str(tmp_path / "players.csv"))
    assert said in str(caught.value)


def test_a_venue_given_twice_is_placed_though_spaces_differ(tmp_path: Path):
    (tmp_path / "grounds.csv").write_text(GROUNDS + "Pebble Field ,Other,,,\n", "utf-8")
    with pytest.raises(UserError, match=r":3:1: venue 'Pebble Field' stands on line 2 too"):
        read_grounds(str(tmp_path / "grounds.csv"))


def test_a_missing_sheet_is_named(tmp_path: Path):
    with pytest.raises(UserError, match=r"no such file; it is named in project\.yaml"):
        read_grounds(str(tmp_path / "grounds.csv"))


def test_a_match_in_which_nothing_was_played_leaves_empty_tables(tmp_path: Path):
    data = cleaned(tmp_path, only={"m1.json": {**match([]), "innings": []}})
    counts = quality_of(data)["counts"]
    assert (counts["matches"], counts["innings"], counts["innings_forfeited"]) == (1, 0, 0)
