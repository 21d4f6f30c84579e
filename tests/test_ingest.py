"""Ingest: each layout read, each bad file named with its reason, nothing dropped silently."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from pipeline.batches import FOLDER
from pipeline.errors import UserError
from pipeline.ingest.stage import ingest
from tests.builders import (
    COLUMNS,
    delivery,
    match,
    read,
    read_all,
    rows_of,
    source,
    write_csv,
    write_delivery_csv,
    write_folder,
    write_zip,
)

GOOD = [delivery(1), delivery(wides=1), delivery(byes=2, noballs=1), delivery(6)]


def reasons(path: Path, **more) -> list[str]:
    return [str(problem) for problem in read_all(source(path, **more))[1]]


@pytest.mark.parametrize("version", ["1.0.0", "1.1.0", "1.2.0"])
def test_versions_from_zip_and_folder_read_alike(tmp_path: Path, version: str):
    wanted = read(tmp_path, match(GOOD, "1.1.0"))
    members = {"m1.json": match(GOOD, version)}
    for path in (
        write_zip(tmp_path / "again.zip", members),
        write_folder(tmp_path / "folder", members),
    ):
        found, problems = read_all(source(path))
        assert problems == [] and found.deliveries.num_rows == 4
        for name in ("deliveries", "dismissals", "matches", "innings", "people"):
            assert getattr(found, name).equals(getattr(wanted, name)), name


def test_an_unknown_version_is_refused(tmp_path: Path):
    path = write_zip(tmp_path / "m.zip", {"m1.json": match(GOOD, "9.0.0")})
    assert "data_version" in reasons(path)[0]


def test_delivery_csv_gives_the_same_deliveries(tmp_path: Path):
    """Twelve deliveries in an over: 'x.10' is not 'x.1'."""
    found = match([*GOOD, *[delivery(wides=1) for _ in range(8)]])
    path = write_delivery_csv(tmp_path / "csv", found)
    rows, problems = read_all(source(path, "delivery-csv"))
    wanted = read(tmp_path, found).deliveries.to_pylist()
    assert problems == [] and rows.deliveries.to_pylist() == wanted
    assert [row["delivery"] for row in wanted] == list(range(1, 13))
    assert rows.matches["competition"].to_pylist() == ["Pebble Cup"]


def test_a_wicket_reads_alike_in_both_layouts(tmp_path: Path):
    found = match([delivery(1), delivery(wicket={"kind": "lbw", "player_out": "A Batt"})])
    path = write_delivery_csv(tmp_path / "csv", found)
    rows, wanted = read_all(source(path, "delivery-csv"))[0], read(tmp_path, found)
    assert rows.deliveries.to_pylist() == wanted.deliveries.to_pylist()
    assert rows.dismissals.to_pylist() == wanted.dismissals.to_pylist()


def test_table_reads_through_its_map_of_columns(tmp_path: Path):
    path = write_csv(tmp_path / "t.csv", rows_of(match(GOOD[::3])))
    constants = {"match_type": "ODM", "gender": "female"}
    given = source(path, "table", columns=COLUMNS, constants=constants)
    tables, problems = read_all(given)
    assert problems == []
    assert tables.deliveries["runs_total"].to_pylist() == [1, 6]
    assert tables.matches["match_type"].to_pylist() == ["domestic one-day"]
    sides = {"A Batt": "Northmoor", "B Batt": "Northmoor", "Q Bowl": "Southfen"}
    wanted = [f"{name} ({side})" for name, side in sides.items()]
    assert tables.people["id"].to_pylist() == wanted


def test_a_map_that_names_no_column_of_ours_is_an_error(tmp_path: Path):
    path = write_csv(tmp_path / "t.csv", rows_of(match(GOOD)))
    given = source(path, "table", columns={**COLUMNS, "batters": "striker"})
    with pytest.raises(UserError, match=r"columns: no column 'batters' \(did you mean 'batter'"):
        read_all(given)


def test_truncated_json_in_a_zip_is_named(tmp_path: Path):
    text = json.dumps(match(GOOD))
    path = write_zip(tmp_path / "m.zip", {"a/m1.json": text[:300], "m2.json": text})
    (found,) = reasons(path)
    assert found.startswith(f"{path}/a/m1.json: not readable JSON")


def test_a_source_that_is_one_file_is_named_as_it_is(tmp_path: Path):
    path = tmp_path / "m1.json"
    path.write_text("{", "utf-8")
    assert reasons(path)[0].startswith(f"{path}: not readable JSON")


def test_a_damaged_member_is_named_and_the_others_read(tmp_path: Path):
    path = write_zip(tmp_path / "m.zip", {"m1.json": match(GOOD), "m2.json": match(GOOD)})
    path.write_bytes(path.read_bytes().replace(b"Pebble Cup", b"Rubble Cup", 1))
    tables, (problem,) = read_all(source(path))
    assert "m.zip/m1.json: damaged in the archive" in str(problem)
    assert tables.matches["match_id"].to_pylist() == ["m2"]


@pytest.mark.parametrize(
    ("part", "key", "value", "said"),
    [
        ("meta", "revision", 10**12, "$.meta.revision"),
        ("info", "balls_per_over", 1000, "$.info.balls_per_over"),
        ("info", "overs", 100_000, "$.info.overs"),
        ("info", "teams", ["Northmoor"], "expected two teams, found ['Northmoor']"),
        ("info", "dates", [], "expected at least one date"),
        ("info", "dates", ["June"], "$.info.dates"),
    ],
)
def test_facts_out_of_bounds_are_named(tmp_path: Path, part: str, key: str, value, said: str):
    found = match(GOOD)
    found[part][key] = value
    (reason,) = reasons(write_zip(tmp_path / "m.zip", {"m1.json": found, "m2.json": match(GOOD)}))
    assert said in reason and "m.zip/m1.json" in reason


def test_a_target_out_of_bounds_is_named(tmp_path: Path):
    found = match(GOOD)
    found["innings"][0]["target"] = {"runs": 99_999}
    assert "target.runs" in reasons(write_zip(tmp_path / "m.zip", {"m1.json": found}))[0]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda d: d["runs"].update(total=9), "innings 1, over 1, delivery 2: batter 0 + extras 1"),
        (lambda d: d.update(extras={"wides": 3}), "delivery 2: the kinds of extras add up to 3"),
        (lambda d: d.pop("extras"), "delivery 2: the kinds of extras add up to 0, not 1"),
        (
            lambda d: d.update(wickets=[{"kind": "abducted", "player_out": "A Batt"}]),
            "unknown kind of dismissal 'abducted'",
        ),
        (lambda d: d["runs"].update(batter="1"), "Expected `int`, got `str`"),
        (lambda d: d["runs"].update(batter=-1, total=0), "Expected `int` >= 0"),
    ],
)
def test_what_does_not_add_up_is_named_with_its_place(tmp_path: Path, change, said: str):
    found = json.loads(json.dumps(match(GOOD)))
    change(found["innings"][0]["overs"][0]["deliveries"][1])
    (reason,) = reasons(write_zip(tmp_path / "m.zip", {"m1.json": found}))
    assert said in reason and "m.zip/m1.json" in reason


def test_stop_lists_every_bad_file_and_writes_nothing(tmp_path: Path):
    members = {"m1.json": "{", "m2.json": match(GOOD), "m3.json": "[]"}
    given = source(write_zip(tmp_path / "m.zip", members))
    with pytest.raises(UserError) as caught:
        ingest(given, tmp_path / "out")
    found = [str(problem) for problem in caught.value.problems]
    assert [
        "m1.json" in found[0],
        "m3.json" in found[1],
        "2 mistake(s) in 2 file(s)" in found[2],
    ] == [True] * 3
    assert [path.name for path in (tmp_path / "out").iterdir()] == [FOLDER]  # for the next run


def test_quarantine_counts_the_bad_and_keeps_the_good(tmp_path: Path):
    members = {"m1.json": "{", "m2.json": match(GOOD)}
    ingest(source(write_zip(tmp_path / "m.zip", members), on_error="quarantine"), tmp_path / "out")
    report = json.loads((tmp_path / "out" / "report.json").read_text("utf-8"))
    assert report["matches"] == 1 and report["deliveries"] == 4
    assert len(report["quarantined"]) == 1 and "m1.json" in report["quarantined"][0]


def test_all_bad_in_quarantine_leaves_empty_tables(tmp_path: Path):
    given = source(write_zip(tmp_path / "m.zip", {"m1.json": "{"}), on_error="quarantine")
    ingest(given, tmp_path / "out")
    assert json.loads((tmp_path / "out" / "report.json").read_text("utf-8"))["matches"] == 0


def test_wrong_header_names_what_is_missing(tmp_path: Path):
    path = write_csv(tmp_path / "m.csv", [{"match": "m1", "runs": 4}])
    with pytest.raises(UserError, match=r"wrong header: nothing for match_id.*it has match, runs"):
        read_all(source(path, "delivery-csv"))


@pytest.mark.parametrize(
    ("column", "value", "said"),
    [
        ("wides", "two", "'two' is no count for wides"),
        ("extras", "5", "the kinds of extras don't add up"),
        ("start_date", "June", "'June' is no date"),
        ("wicket_type", "abducted", "unknown kind of dismissal 'abducted'"),
        ("wicket_type", "bowled", "a dismissal, but player_out is blank"),
        ("innings", "", "innings is blank"),
        ("ball", "", "ball is blank"),
        ("match_id", "", "match_id is blank"),
        ("striker", " ", "batter is blank"),
        ("delivered", "maybe", "'maybe' is neither 0 nor 1: delivered"),
        ("revision", "first", "'first' is no count for revision"),
    ],
)
def test_bad_values_in_rows_are_named_with_their_line(
    tmp_path: Path, column: str, value: str, said: str
):
    rows = [{**row, "delivered": 1, "revision": 1} for row in rows_of(match(GOOD))]
    rows[1][column] = value
    path = write_csv(tmp_path / "m.csv", rows)
    found = reasons(path, layout="delivery-csv")
    assert any(said in reason and f"{path}:3:1" in reason for reason in found)


@pytest.mark.parametrize("text", ["1", "1.0", "true", "True", ""])
def test_spellings_of_a_delivered_ball(tmp_path: Path, text: str):
    rows = [{**row, "delivered": text} for row in rows_of(match([delivery(1)]))]
    path = write_csv(tmp_path / "m.csv", rows)
    tables, problems = read_all(source(path, "delivery-csv"))
    assert problems == [] and tables.deliveries["delivered"].to_pylist() == [True]


def test_dismissals_without_a_column_of_players_out_are_not_lost(tmp_path: Path):
    rows = rows_of(match(GOOD))
    for row in rows:
        del row["player_dismissed"]
    with pytest.raises(UserError, match=r"nothing for player_out \(which dismissal needs\)"):
        read_all(source(write_csv(tmp_path / "m.csv", rows), "delivery-csv"))


@pytest.mark.parametrize("line", ["info,balls_per_over,six", "info,overs,100000"])
def test_a_bad_number_in_an_info_file_is_placed(tmp_path: Path, line: str):
    path = write_delivery_csv(tmp_path / "csv", match(GOOD))
    (path / "m1_info.csv").write_text(f"info,gender,female\n{line}\n", "utf-8")
    tables, (problem,) = read_all(source(path, "delivery-csv"))
    assert re.search(r"m1_info\.csv:2:1: '\w+' is no count for", str(problem))
    assert tables.matches.num_rows == 0


def test_archives_that_hold_nothing_are_errors(tmp_path: Path):
    with pytest.raises(UserError, match=r"no \.json file in it"):
        read_all(source(write_zip(tmp_path / "empty.zip", {})))
    (tmp_path / "not.zip").write_bytes(b"plain text")
    with pytest.raises(UserError, match="not a readable zip"):
        read_all(source(tmp_path / "not.zip"))


def test_super_overs_are_set_aside_and_counted(tmp_path: Path):
    found = match(GOOD)
    found["innings"].append({**found["innings"][0], "super_over": True})
    tables = read(tmp_path, found)
    assert tables.deliveries.num_rows == 4 and tables.innings.num_rows == 1
    assert tables.matches["super_overs"].to_pylist() == [1]


def test_two_files_of_one_name_are_named(tmp_path: Path):
    members = {"a/m1.json": match(GOOD), "b/m1.json": match(GOOD)}
    (reason,) = reasons(write_zip(tmp_path / "m.zip", members))
    assert "b/m1.json: same match id as a/m1.json" in reason


def test_of_two_files_of_one_name_the_first_is_kept(tmp_path: Path):
    members = {"a/m1.json": match([delivery(1)]), "b/m1.json": match([delivery(4)])}
    path = write_zip(tmp_path / "m.zip", members)
    ingest(source(path, on_error="quarantine"), tmp_path / "out")
    report = json.loads((tmp_path / "out" / "report.json").read_text("utf-8"))
    assert (report["matches"], report["deliveries"], report["runs"]) == (1, 1, 1)
    assert len(report["quarantined"]) == 1


def test_an_innings_in_two_csv_files_is_named_not_counted_twice(tmp_path: Path):
    folder = write_folder(tmp_path / "csv", {})
    for name, match_id in (("a", "m1"), ("b", "m1"), ("c", "m2")):
        write_csv(folder / f"{name}.csv", rows_of(match(GOOD), match_id))
    tables, (problem,) = read_all(source(folder, "delivery-csv"))
    assert "b.csv: match m1, innings 1 is in" in str(problem) and "a.csv" in str(problem)
    assert tables.matches["match_id"].to_pylist() == ["m2"]


def test_innings_of_one_match_may_stand_in_two_csv_files(tmp_path: Path):
    folder = write_folder(tmp_path / "csv", {})
    for innings in (1, 2):
        rows = [{**row, "innings": innings} for row in rows_of(match(GOOD))]
        write_csv(folder / f"{innings}.csv", rows)
    tables, problems = read_all(source(folder, "delivery-csv"))
    assert problems == [] and tables.matches.num_rows == 1
    assert tables.innings["innings"].to_pylist() == [1, 2]


def test_several_dismissals_on_one_delivery_are_all_kept(tmp_path: Path):
    ball = delivery()
    ball["wickets"] = [
        {"kind": "caught", "player_out": "A Batt"},
        {"kind": "retired out", "player_out": "B Batt"},
        {"kind": "retired hurt", "player_out": "C Batt"},
    ]
    tables = read(tmp_path, match([ball]))
    row = tables.deliveries.to_pylist()[0]
    assert (row["wickets"], row["bowler_wickets"], row["dismissal"]) == (2, 1, "caught")
    assert tables.dismissals["player_out_id"].to_pylist() == ["id-a", "id-b", "id-c"]
    assert tables.dismissals["out"].to_pylist() == [True, True, False]


def test_stray_keys_are_ignored_and_seasons_are_text(tmp_path: Path):
    found = match([{**delivery(1), "weather": "fair"}], season=2020)
    tables = read(tmp_path, found)
    assert tables.matches["season"].to_pylist() == ["2020"]


def test_a_person_without_an_id_is_told_by_name_gender_and_side(tmp_path: Path):
    tables = read(tmp_path, match(GOOD, registry={"people": {"A Batt": "id-a"}}))
    wanted = ["B Batt (Northmoor)", "Q Bowl (Southfen)", "id-a"]
    assert tables.people["id"].to_pylist() == wanted
    assert tables.people["registered"].to_pylist() == [False, False, True]


def test_match_facts_are_kept(tmp_path: Path):
    (row,) = read(tmp_path, match(GOOD)).matches.to_pylist()
    assert (row["winner"], row["margin"], row["result"]) == ("Northmoor", "3 runs", "win")
    assert (str(row["date"]), row["overs_limit"], row["balls_per_over"]) == ("2020-06-01", 50, 6)


@pytest.mark.parametrize("how", ["eliminator", "bowl_out"])
def test_who_won_a_tie_otherwise_is_the_winner_in_every_layout(tmp_path: Path, how: str):
    """A tie stays one, and the match was decided."""
    found = match(GOOD, outcome={"result": "tie", how: "Southfen"})
    folder = write_delivery_csv(tmp_path / "csv", found)
    info = f"info,gender,female\ninfo,outcome,tie\ninfo,{how},Southfen\n"
    (folder / "m1_info.csv").write_text(info, "utf-8")
    as_rows, _ = read_all(source(folder, "delivery-csv"))
    for tables in (read(tmp_path, found), as_rows):
        (row,) = tables.matches.to_pylist()
        assert (row["winner"], row["result"], row["margin"]) == ("Southfen", "tie", None)
