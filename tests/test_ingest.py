"""Ingest: each layout read, each bad file named with its reason, nothing dropped silently."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pipeline.errors import UserError
from pipeline.ingest.__main__ import ingest
from pipeline.ingest.read import read_source
from tests.builders import delivery, match, read, rows_of, source, write_csv, write_zip

GOOD = [delivery(1), delivery(wides=1), delivery(byes=2, noballs=1), delivery(6)]


def reasons(path: Path, **more) -> list[str]:
    return [str(problem) for problem in read_source(source(path, **more))[1]]


@pytest.mark.parametrize("version", ["1.0.0", "1.1.0", "1.2.0"])
def test_versions_from_zip_and_folder_read_alike(tmp_path: Path, version: str):
    found = match(GOOD, version)
    zipped = read(tmp_path, found)
    folder = tmp_path / "folder"
    folder.mkdir()
    (folder / "m1.json").write_text(json.dumps(found), "utf-8")
    loose, problems = read_source(source(folder))
    assert problems == [] and loose.deliveries.equals(zipped.deliveries)
    assert loose.matches.equals(zipped.matches) and zipped.deliveries.num_rows == 4


def test_an_unknown_version_is_refused(tmp_path: Path):
    path = write_zip(tmp_path / "m.zip", {"m1.json": match(GOOD, "9.0.0")})
    assert "data_version" in reasons(path)[0]


def test_delivery_csv_gives_the_same_deliveries(tmp_path: Path):
    """Twelve deliveries in an over: 'x.10' is not 'x.1'."""
    long_over = [*GOOD, *[delivery(wides=1) for _ in range(8)]]
    found = match(long_over)
    path = write_csv(tmp_path / "m1.csv", rows_of(found))
    info = ["info,gender,female", "info,event,Pebble Cup"]
    info += [
        f"info,registry,people,{name},{identity}"
        for name, identity in (("A Batt", "id-a"), ("B Batt", "id-b"), ("Q Bowl", "id-q"))
    ]
    (tmp_path / "m1_info.csv").write_text("\n".join(info), "utf-8")
    path.rename(tmp_path / "rows.csv")
    folder = tmp_path / "csv"
    folder.mkdir()
    (tmp_path / "rows.csv").rename(folder / "m1.csv")
    (tmp_path / "m1_info.csv").rename(folder / "m1_info.csv")
    rows, problems = read_source(source(folder, "delivery-csv"))
    assert problems == []
    wanted = read(tmp_path, found).deliveries.to_pylist()
    assert rows.deliveries.to_pylist() == wanted
    assert [row["delivery"] for row in wanted] == list(range(1, 13))
    assert rows.matches.to_pylist()[0]["competition"] == "Pebble Cup"


def test_table_reads_through_its_map_of_columns(tmp_path: Path):
    rows = [
        {"game": "g1", "day": "2020-06-01", "yr": 2020, "inn": 1, "ov": 1, "bat": "A", "non": "B"}
        | {"bowl": "Q", "r": runs, "one": "Northmoor", "two": "Southfen"}
        for runs in (0, 4, 1)
    ]
    columns = {"match_id": "game", "date": "day", "season": "yr", "innings": "inn", "over": "ov"}
    columns |= {"batter": "bat", "non_striker": "non", "bowler": "bowl", "runs_batter": "r"}
    columns |= {"batting_team": "one", "bowling_team": "two"}
    path = write_csv(tmp_path / "t.csv", rows)
    constants = {"match_type": "ODM", "gender": "female"}
    given = source(path, "table", columns=columns, constants=constants)
    tables, problems = read_source(given)
    assert problems == []
    assert tables.deliveries["runs_total"].to_pylist() == [0, 4, 1]
    assert tables.matches["match_type"].to_pylist() == ["ODM"]
    assert tables.people["id"].to_pylist() == ["A (female)", "B (female)", "Q (female)"]


def test_truncated_json_in_a_zip_is_named(tmp_path: Path):
    text = json.dumps(match(GOOD))
    path = write_zip(tmp_path / "m.zip", {"a/m1.json": text[:300], "m2.json": text})
    (found,) = reasons(path)
    assert found.startswith(f"{path}/a/m1.json: not readable JSON")


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
    assert ["m1.json" in found[0], "m3.json" in found[1], "2 bad file(s)" in found[2]] == [True] * 3
    assert not (tmp_path / "out").exists()


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
        read_source(source(path, "delivery-csv"))


@pytest.mark.parametrize(
    ("column", "value", "said"),
    [
        ("wides", "two", "'two' is no count for wides"),
        ("extras", "5", "the kinds of extras don't add up"),
        ("start_date", "June", "'June' is no date"),
        ("wicket_type", "abducted", "unknown kind of dismissal 'abducted'"),
    ],
)
def test_bad_values_in_rows_are_named_with_their_line(
    tmp_path: Path, column: str, value: str, said: str
):
    rows = rows_of(match(GOOD))
    rows[1][column] = value
    path = write_csv(tmp_path / "m.csv", rows)
    found = reasons(path, layout="delivery-csv")
    assert any(said in reason and f"{path}:3:1" in reason for reason in found)


def test_archives_that_hold_nothing_are_errors(tmp_path: Path):
    with pytest.raises(UserError, match=r"no \.json file in it"):
        read_source(source(write_zip(tmp_path / "empty.zip", {})))
    (tmp_path / "not.zip").write_bytes(b"plain text")
    with pytest.raises(UserError, match="not a readable zip"):
        read_source(source(tmp_path / "not.zip"))


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


def test_a_person_without_an_id_is_told_by_name_and_gender(tmp_path: Path):
    tables = read(tmp_path, match(GOOD, registry={"people": {"A Batt": "id-a"}}))
    assert tables.people["id"].to_pylist() == ["B Batt (female)", "Q Bowl (female)", "id-a"]


def test_match_facts_are_kept(tmp_path: Path):
    (row,) = read(tmp_path, match(GOOD)).matches.to_pylist()
    assert (row["winner"], row["margin"], row["result"]) == ("Northmoor", "3 runs", "win")
    assert (str(row["date"]), row["overs_limit"], row["balls_per_over"]) == ("2020-06-01", 50, 6)
