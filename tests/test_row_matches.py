"""Rows as matches: their order, their sides, their dates, and what stands beside them."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
import pytest

from pipeline.config.project import Source
from pipeline.config.written import Written
from pipeline.ingest import match_blocks, row_people, rows_aside, text_reader
from pipeline.ingest.columns import Tables
from pipeline.ingest.stage import ingest
from tests.builders import (
    COLUMNS,
    delivery,
    match,
    read_all,
    rows_of,
    source,
    write_csv,
    write_delivery_csv,
    write_folder,
)
from tests.refusing import BALLS, said

Row = dict[str, Any]
SWAP = {"batting_team": "Southfen", "bowling_team": "Northmoor", "bowler": "A Batt"}


def innings(number: int, match_id: str = "m1", **more: Any) -> list[Row]:
    """The rows of two overs; of an even innings the sides are changed."""
    found = match([])
    found["innings"][0]["overs"] = [{"over": n, "deliveries": BALLS * 4} for n in range(2)]
    swap = {**SWAP, "striker": "Q Bowl", "non_striker": "R Bowl"} if number % 2 == 0 else {}
    rows = rows_of(found, match_id)
    for row in rows:
        row["player_dismissed"] = (swap or row)["striker"] if row["wicket_type"] else ""
    return [{**row, **swap, "innings": number, **more} for row in rows]


def told(tables: Tables) -> dict[str, list[Row]]:
    """All tables as rows, matches in the order of their ids."""
    names = ("deliveries", "dismissals", "matches", "innings", "people")
    keys = ("match_id", "innings", "over", "delivery", "id")
    made = {name: getattr(tables, name).to_pylist() for name in names}
    return {
        name: sorted(rows, key=lambda row: [row.get(key) for key in keys if key in row])
        for name, rows in made.items()
    }


def as_csv(path: Path, rows: list[Row], **more: Any) -> tuple[Tables, list[str]]:
    tables, problems = read_all(source(write_csv(path, rows), "delivery-csv", **more))
    return tables, said(problems)


@pytest.mark.parametrize("pieces", [False, True])
@pytest.mark.parametrize("suffix", ["csv", "parquet"])
@pytest.mark.parametrize("order", ["bowler", "by chance", "backwards"])
def test_a_table_in_any_order_gives_what_it_gives_in_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, pieces: bool, suffix: str, order: str
):
    rows = [row for m in ("m1", "m2", "m3") for n in (1, 2) for row in innings(n, m)]
    if pieces:
        for module in (match_blocks, text_reader):
            monkeypatch.setattr(module, "BATCH", 2_000)
    wanted, problems = as_csv(tmp_path / "w.csv", rows)
    assert problems == []
    if order == "bowler":
        rows.sort(key=lambda row: row["bowler"])
    elif order == "backwards":
        rows.reverse()
    else:
        random.Random(3).shuffle(rows)
    path = tmp_path / f"t.{suffix}"
    if suffix == "csv":
        write_csv(path, rows)
    else:
        pq.write_table(
            pa.Table.from_pylist([{k: str(v) for k, v in r.items()} for r in rows]), path
        )
    tables, found = read_all(source(path, "table", columns=COLUMNS))
    assert found == [] and told(tables) == told(wanted)


def test_balls_of_one_label_stay_as_they_stand(tmp_path: Path):
    """Labels that count valid balls: a wide has that of the ball after it."""
    rows = innings(1)[:6]
    for row, label in zip(rows, ("0.1", "0.2", "0.2", "1.1", "1.1", "1.2"), strict=True):
        row["ball"] = label
    for at, row in enumerate(rows):
        row["bowler"] = f"Q{at}"
    tables, _ = as_csv(tmp_path / "m.csv", [*rows[3:], *rows[:3]])
    bowlers = [each.split(" ")[0] for each in tables.deliveries["bowler_id"].to_pylist()]
    assert bowlers == ["Q0", "Q1", "Q2", "Q3", "Q4", "Q5"]


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"bowling_team": "Northmoor"}, "Northmoor both bats and bowls"),
        (SWAP, "innings 1: Southfen bats, after another side did"),
        (
            {"bowling_team": "Eastbeck"},
            "Northmoor against Eastbeck: more than two sides in match m1",
        ),
    ],
)
def test_sides_that_can_not_be_are_named(tmp_path: Path, change: Row, message: str):
    rows = [*innings(1), *innings(1, "m2")]
    rows[2] |= change
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    assert f"{tmp_path / 'm.csv'}:4:1: {message}" in problems
    assert tables.matches["match_id"].to_pylist() == ["m2"]


def test_dates_of_another_form_are_one_mistake_and_can_be_read(tmp_path: Path):
    rows = [row for n in range(40) for row in innings(1, f"m{n}", start_date="31/12/2019")]
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    (problem,) = problems
    assert tables.matches.num_rows == 0 and "; 959 more rows like it; day first? " in problem
    assert "write date_format: DD/MM/YYYY for this source in sources.yaml" in problem
    tables, problems = as_csv(tmp_path / "m.csv", rows, date_format="DD/MM/YYYY")
    assert problems == [] and str(tables.matches["date"][0]) == "2019-12-31"


def test_a_form_of_dates_that_is_none_is_refused():
    with pytest.raises(ValueError, match="'day' must say YYYY, MM"):
        Source.model_validate(
            source(Path("m.csv"), "delivery-csv").model_dump() | {"date_format": "day"}
        )


def test_a_match_of_several_days_has_its_first_and_its_last(tmp_path: Path):
    rows = [*innings(1, start_date="2020-06-02"), *innings(2, start_date="2020-06-04")]
    tables, _ = as_csv(tmp_path / "m.csv", rows)
    (row,) = tables.matches.to_pylist()
    assert (str(row["date"]), str(row["last_day"])) == ("2020-06-02", "2020-06-04")


def test_a_constant_stands_for_a_column_that_the_file_lacks(tmp_path: Path):
    rows = innings(1)
    for row in rows:
        del row["season"]
    tables, problems = as_csv(tmp_path / "m.csv", rows, constants={"season": "2020"})
    assert problems == [] and tables.matches["season"].to_pylist() == ["2020"]


def test_super_overs_by_their_own_marks_whatever_the_limit(tmp_path: Path):
    rows = [row for n in (1, 2, 3, 4) for row in innings(n, super_over=int(n > 2))]
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    assert problems == [] and tables.matches["super_overs"].to_pylist() == [2]
    assert tables.innings["innings"].to_pylist() == [1, 2]
    marked = [
        {**row, "super_over": 0 if row["innings"] == 3 else row["super_over"]} for row in rows
    ]
    tables, _ = as_csv(tmp_path / "n.csv", [{**row, "overs_limit": 20} for row in marked])
    assert tables.innings["innings"].to_pylist() == [1, 2, 3]


BESIDE = {
    "matches.csv": "match_id,winner,margin,overs_limit,method,gender\n"
    "m1,Southfen,3 wickets,20.0,,female\nm9,Northmoor,,,,\n",
    "innings.csv": "match_id,innings,batting_team,target_runs,target_overs,penalty_pre,super_over\n"
    "m1,1,,,,5,\nm1,2,,26,18.3,,\nm1,3,Northmoor,,,,1\n",
}


def test_tables_of_matches_and_innings_beside_the_rows(tmp_path: Path):
    folder = write_folder(tmp_path / "f", BESIDE)
    write_csv(folder / "rows.csv", [row for n in (1, 2, 3) for row in innings(n)])
    tables, problems = read_all(source(folder, "table", columns=COLUMNS))
    assert problems == []
    (row,) = tables.matches.to_pylist()
    assert (row["winner"], row["margin"], row["result"]) == ("Southfen", "3 wickets", "win")
    assert (row["overs_limit"], row["gender"], row["target"]) == (20, "female", 26)
    assert row["super_overs"] == 1
    found = tables.innings.to_pylist()
    assert [(each["innings"], each["penalty_pre"]) for each in found] == [(1, 5), (2, 0)]
    assert (found[1]["target_runs"], found[1]["target_overs"]) == (26, "18.3")
    assert "A Batt (Northmoor)" in tables.people["id"].to_pylist()


def test_columns_of_innings_may_stand_in_the_rows(tmp_path: Path):
    rows = [
        *innings(1, penalty_post=5, target_runs=""),
        *innings(2, penalty_post="", target_runs=30),
    ]
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    assert problems == []
    assert tables.innings["penalty_post"].to_pylist() == [5, 0]
    assert tables.innings["target_runs"].to_pylist() == [None, 30]
    rows[0]["target_runs"] = "many"
    (problem,) = as_csv(tmp_path / "m.csv", rows)[1]
    assert "m.csv:2:1: 'many' is no count for target_runs; the most is 9,999" in problem


def test_an_info_file_may_tell_of_innings(tmp_path: Path):
    folder = write_delivery_csv(tmp_path / "f", match(BALLS))
    write_csv(folder / "m1.csv", [*innings(1), *innings(2)])
    lines = ["info,innings,2,target_runs,30", "info,innings,1,penalty_pre,5"]
    lines += ["info,innings,3,batting_team,Northmoor", "info,innings,3,forfeited,1"]
    (folder / "m1_info.csv").write_text("\n".join(lines), "utf-8")
    tables, problems = read_all(source(folder, "delivery-csv"))
    assert problems == []
    found = tables.innings.to_pylist()
    assert [each["penalty_pre"] for each in found] == [5, 0, 0]
    assert [each["forfeited"] for each in found] == [False, False, True]
    assert found[1]["target_runs"] == 30


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("info,innings,0,target_runs,30", "innings '0': expected 1 to 99"),
        ("info,innings,1,target,30", "nothing of an innings is called 'target'"),
        ("info,innings,1,target_runs,x", "'x' is no count for target_runs"),
        ("info,innings,1,super_over,maybe", "'maybe' is neither 0 nor 1: super_over"),
    ],
)
def test_what_an_info_file_tells_wrongly_of_innings_is_named(
    tmp_path: Path, line: str, message: str
):
    folder = write_delivery_csv(tmp_path / "f", match(BALLS))
    (folder / "m1_info.csv").write_text(f"info,gender,female\n{line}\n", "utf-8")
    tables, (problem,) = read_all(source(folder, "delivery-csv"))
    assert f"m1_info.csv:2:1: {message}" in str(problem) and tables.matches.num_rows == 0


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        ("matches.csv", "match_id,overs_limit\nm1,many\n", ":2:1: 'many' is no count for overs_li"),
        ("matches.csv", "match_id\nm1\nm1\n", ":2:1: match m1 stands twice in matches.csv; 1 more"),
        ("matches.csv", "match_id,balls_per_over\nm1,0\n", ":2:1: no over has 0 balls"),
        ("innings.csv", "match_id,innings\nm1,\n", ":2:1: innings is blank"),
        ("innings.csv", "match\nm1\n", ":1:1: wrong header: nothing for match_id, innings"),
    ],
)
def test_what_is_wrong_in_a_table_beside_the_rows_is_named(
    tmp_path: Path, name: str, text: str, message: str
):
    folder = write_folder(tmp_path / "f", {name: text})
    write_csv(folder / "rows.csv", [*innings(1), *innings(1, "m2")])
    tables, problems = read_all(source(folder, "table", columns=COLUMNS))
    assert any(f"{name}{message}" in problem for problem in said(problems))
    kept = tables.matches["match_id"].to_pylist()
    assert kept == (["m1", "m2"] if "header" in message else ["m2"])


def test_files_named_after_their_match_and_others_in_one_archive(tmp_path: Path):
    """Of m1 a second file tells again; of m3 and m4 two files tell an innings each."""
    folder = write_folder(tmp_path / "f", {})
    write_csv(folder / "m1.csv", innings(1))
    write_csv(folder / "m2.csv", innings(1, "m2"))
    write_csv(folder / "x.csv", [*innings(1, "m3"), *innings(1, "m4"), *innings(1)])
    write_csv(folder / "y.csv", [*innings(2, "m3"), *innings(1, "m5"), *innings(2, "m4")])
    tables, (problem,) = read_all(source(folder, "delivery-csv"))
    assert tables.matches["match_id"].to_pylist() == ["m1", "m2", "m3", "m4", "m5"]
    assert tables.innings.num_rows == 7
    assert str(problem).startswith(
        f"{folder}/x.csv:50:1: match m1 has a file of its own too; keep one of the two; 23 more"
    )


def test_progress_is_told_of_files_and_of_rows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    folder = write_folder(tmp_path / "f", {})
    for n in range(8):
        write_csv(folder / f"m{n}.csv", innings(1, f"m{n}"))
    monkeypatch.setattr(text_reader, "BATCH", 3_000)
    ingest(source(folder, "delivery-csv"), tmp_path / "out")
    assert "ingest pebbles: 50 % of 8 files" in capsys.readouterr().err
    monkeypatch.setattr(match_blocks, "BATCH", 3_000)
    monkeypatch.setattr(match_blocks, "MANY_ROWS", 100)
    path = write_csv(tmp_path / "t.csv", [row for n in range(8) for row in innings(1, f"m{n}")])
    ingest(source(path, "delivery-csv"), tmp_path / "out")
    assert "ingest pebbles: 100 % of 192 rows" in capsys.readouterr().err
    report = json.loads((tmp_path / "out" / "report.json").read_text("utf-8"))
    assert report["matches"] == 8


def test_several_dismissals_stand_in_the_order_of_their_columns(tmp_path: Path):
    out = {"kind": "stumped", "player_out": "A Batt"}
    rows = rows_of(match([delivery(wicket=out, wides=1)]))
    rows[0] |= {"other_wicket_type": "retired hurt", "other_player_dismissed": "B Batt"}
    tables, _ = as_csv(tmp_path / "m.csv", rows)
    assert tables.dismissals["kind"].to_pylist() == ["stumped", "retired hurt"]


@pytest.mark.parametrize("largest", [2**62, 24, 17])
def test_columns_are_told_together_whatever_their_sizes(
    monkeypatch: pytest.MonkeyPatch, largest: int
):
    monkeypatch.setattr(row_people, "LARGEST", largest)
    columns = [(np.array([0, 1, 0, 1, 0]), 2), (np.array([3, 3, 3, 0, 3]), 4)]
    columns += [(np.array([2, 2, 2, 2, 1]), 3)]
    rows, distinct = row_people.together(columns)
    assert rows.tolist() == [0, 1, 0, 2, 3]
    assert distinct == [(0, 3, 2), (1, 3, 2), (1, 0, 2), (0, 3, 1)]


def test_a_constant_dismissal_without_a_player_out_is_told_on_its_rows(tmp_path: Path):
    rows = innings(1)
    for row in rows:
        del row["wicket_type"], row["player_dismissed"]
    tables, problems = as_csv(tmp_path / "m.csv", rows, constants={"dismissal": "bowled"})
    assert tables.matches.num_rows == 0
    assert problems == [
        f"{tmp_path / 'm.csv'}:2:1: a dismissal, but player_out is blank; 23 more rows like it"
    ]


def test_a_super_over_marked_on_some_rows_of_its_innings_is_an_error(tmp_path: Path):
    """Else these rows would be set aside, and the others counted."""
    rows = [*innings(1, super_over=""), *innings(2, super_over="")]
    rows[30]["super_over"] = rows[31]["super_over"] = 1
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    assert problems == [
        f"{tmp_path / 'm.csv'}:32:1: innings 2: super_over is marked on some of its rows only; "
        "1 more row like it"
    ]
    assert tables.matches.num_rows == 0


@pytest.mark.parametrize(
    ("day", "form", "told"),
    [
        ("2020-06-01", "DD/MM/YYYY", "they are YYYY-MM-DD: leave date_format out for this source"),
        ("2019-1-6", "YYYY-MM-DD", "write the month and the day with two digits, as YYYY-MM-DD"),
        ("2019-31-1", "YYYY-MM-DD", "year first? write date_format: YYYY-DD-MM for this source"),
    ],
)
def test_days_in_the_usual_order_are_not_taken_for_day_before_month(
    tmp_path: Path, day: str, form: str, told: str
):
    (problem,) = as_csv(tmp_path / "m.csv", innings(1, start_date=day), date_format=form)[1]
    assert told in problem and ("DD-MM" in problem) == (day == "2019-31-1")


def test_tables_beside_the_rows_that_tell_of_a_match_twice_are_named(tmp_path: Path):
    """In two folders, or as one innings written in two ways; the last is not just taken."""
    folder = write_folder(tmp_path / "f", {})
    for name, winner, gender in (("a", "Northmoor", "female"), ("b", "Southfen", "male")):
        texts = {"matches.csv": f"match_id,winner\nm1,{winner}\n"}
        texts |= {"m2_info.csv": f"info,gender,{gender}\n"}
        write_folder(folder / name, texts)
    (folder / "innings.csv").write_text("match_id,innings,target_runs\nm3,1,20\nm3,1.0,30\n")
    write_csv(folder / "rows.csv", [row for n in range(1, 5) for row in innings(1, f"m{n}")])
    tables, problems = read_all(source(folder, "table", columns=COLUMNS))
    assert sorted(said(problems)) == [
        f"{folder}/b/m2_info.csv: match m2 has {folder}/a/m2_info.csv too; keep one of the two",
        f"{folder}/b/matches.csv:2:1: match m1 stands twice in matches.csv",
        f"{folder}/innings.csv:2:1: match m3 stands twice in innings.csv; 1 more row like it",
    ]
    assert tables.matches["match_id"].to_pylist() == ["m4"]


@pytest.mark.parametrize(
    ("number", "told"),
    [
        ("200", "'200' is no count for innings; the most is 99"),
        ("0", "innings 0: the first is 1"),
        ("two", "'two' is no count for innings; the most is 99"),
    ],
)
def test_an_innings_beside_the_rows_has_a_number_that_can_be(
    tmp_path: Path, number: str, told: str
):
    texts = {"innings.csv": f"match_id,innings,batting_team,forfeited\nm1,{number},Northmoor,1\n"}
    folder = write_folder(tmp_path / "f", texts)
    write_csv(folder / "rows.csv", innings(1))
    tables, problems = read_all(source(folder, "table", columns=COLUMNS))
    assert said(problems) == [f"{folder}/innings.csv:2:1: {told}"] and not len(tables.matches)


@pytest.mark.parametrize("name", ["matches.csv", "innings.csv", "spring_info.csv"])
def test_a_source_of_one_file_is_its_rows_whatever_it_is_called(tmp_path: Path, name: str):
    path = write_csv(tmp_path / name, innings(1))
    tables, problems = read_all(source(path, "table", columns=COLUMNS))
    assert problems == [] and tables.deliveries.num_rows == 24


def test_what_is_wrong_beside_copied_rows_is_told_of_the_source_itself(tmp_path: Path):
    folder = write_folder(tmp_path / "f", {"matches.csv": "match_id;overs_limit\nm1;many\n"})
    rows = write_csv(folder / "rows.csv", innings(1))
    rows.write_text(rows.read_text("utf-8").replace(",", ";"), "utf-8")
    given = source(folder, "table", columns=COLUMNS, written=Written(delimiter="semicolon"))
    (problem,) = said(read_all(given)[1])
    assert problem.startswith(f"{folder}/matches.csv:2:1: 'many' is no count for overs_limit")


@pytest.mark.parametrize("small", [False, True])
def test_files_of_other_columns_are_each_read_as_they_would_be_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, small: bool
):
    """Rows of both matches come from both files; a constant is of the file that lacks the column.

    Few rows are kept in memory until all of a match are there, many on the disk.
    """
    if small:
        for module in (match_blocks, text_reader):
            monkeypatch.setattr(module, "BATCH", 2_000)
        monkeypatch.setattr(rows_aside, "IN_MEMORY", 10)
    folder = write_folder(tmp_path / "f", {})
    matches = ("m1", "m2", "m3")
    here = [row for m in matches for row in innings(1, m, gender="female", city="Pebbleton")]
    there = [row for m in matches for row in innings(2, m)]
    for row in there:
        del row["season"]
    write_csv(folder / "a.csv", here)
    write_csv(folder / "b.csv", [*there, *({**row, "match_id": "m4"} for row in there[:24])])
    more = {"constants": {"season": "2020", "match_type": "one-day", "gender": "male"}}
    tables, problems = read_all(source(folder, "delivery-csv", **more))
    assert said(problems) == []
    rows = sorted(tables.matches.to_pylist(), key=lambda row: row["match_id"])
    assert [row["gender"] for row in rows] == ["female", "female", "female", "male"]
    assert [row["city"] for row in rows] == ["Pebbleton"] * 3 + [None]
    assert tables.deliveries.num_rows == 7 * 24 and tables.innings.num_rows == 7


def test_a_blank_gender_is_unknown(tmp_path: Path):
    tables, _ = as_csv(tmp_path / "m.csv", innings(1, gender=" "))
    assert tables.matches["gender"].to_pylist() == ["unknown"]
    assert set(tables.people["gender"].to_pylist()) == {"unknown"}


def test_a_gender_is_one_however_it_is_written(tmp_path: Path):
    """In capitals it would part a person in two, and be of no topic."""
    rows = [*innings(1, gender="Female"), *innings(1, "m2", gender="female")]
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    assert problems == []
    assert tables.matches["gender"].to_pylist() == ["female"] * 2


def test_a_blank_of_an_info_file_takes_nothing_away(tmp_path: Path):
    folder = write_delivery_csv(tmp_path / "f", match(BALLS))
    write_csv(folder / "m1.csv", innings(1, venue="Moor Top", winner="Northmoor"))
    lines = ["info,venue,", "info,winner,", "info,innings,1,target_overs,"]
    (folder / "m1_info.csv").write_text("\n".join(lines), "utf-8")
    tables, problems = read_all(source(folder, "delivery-csv"))
    assert problems == []
    (row,) = tables.matches.to_pylist()
    assert (row["venue"], row["winner"]) == ("Moor Top", "Northmoor")
    assert tables.innings["target_overs"].to_pylist() == [None]


def test_a_whole_ball_beside_a_column_of_overs_may_have_a_point(tmp_path: Path):
    """3.0 is the third ball there, so that rows in any order stand as they were bowled."""
    rows = innings(1)[:18]
    wanted, _ = as_csv(tmp_path / "w.csv", rows)
    rows = [{**row, "over": at // 6 + 1, "ball": f"{at % 6 + 1}.0"} for at, row in enumerate(rows)]
    rows.reverse()
    path = write_csv(tmp_path / "t.csv", rows)
    tables, found = read_all(source(path, "table", columns={**COLUMNS, "over": "over"}))
    assert found == []
    runs = wanted.deliveries["runs_batter"].to_pylist()
    assert tables.deliveries["runs_batter"].to_pylist() == runs


def test_balls_an_over_and_revisions_may_stand_in_the_rows(tmp_path: Path):
    tables, problems = as_csv(tmp_path / "m.csv", innings(1, balls_per_over=8, revision=1234))
    assert problems == []
    (row,) = tables.matches.to_pylist()
    assert (row["balls_per_over"], row["revision"]) == (8, 1234)
    (problem,) = as_csv(tmp_path / "m.csv", innings(1, balls_per_over=0))[1]
    assert "m.csv:2:1: no over has 0 balls: balls_per_over; 23 more rows" in problem


def test_an_info_file_with_a_mark_that_is_never_closed_is_an_error(tmp_path: Path):
    """Else all that follows would be one cell, and lost."""
    folder = write_delivery_csv(tmp_path / "f", match(BALLS))
    text = 'info,gender,female\ninfo,venue,"Field\ninfo,overs,20\n'
    (folder / "m1_info.csv").write_text(text, "utf-8")
    tables, (problem,) = read_all(source(folder, "delivery-csv"))
    assert f"{folder}/m1_info.csv:2:1: not a readable CSV: a quotation mark is" in str(problem)
    assert tables.matches.num_rows == 0


def test_another_side_than_beside_the_rows_is_an_error(tmp_path: Path):
    texts = {"innings.csv": "match_id,innings,batting_team\nm1,2,Northmoor\nm2,1,Northmoor\n"}
    folder = write_folder(tmp_path / "f", texts)
    rows = [row for m in ("m1", "m2") for n in (1, 2) for row in innings(n, m)]
    write_csv(folder / "rows.csv", rows)
    tables, problems = read_all(source(folder, "table", columns=COLUMNS))
    assert said(problems) == [
        f"{folder}/rows.csv:26:1: innings 2: Southfen bats, and another side beside the rows"
    ]
    assert tables.matches["match_id"].to_pylist() == ["m2"]


def test_a_match_of_super_overs_alone_is_not_lost_in_silence(tmp_path: Path):
    rows = [*innings(1, super_over=1), *innings(1, "m2", super_over=0)]
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    assert problems == [
        f"{tmp_path / 'm.csv'}:2:1: match m1 has super overs only; 23 more rows like it"
    ]
    assert tables.matches["match_id"].to_pylist() == ["m2"]


def test_a_source_of_headers_alone_is_told(tmp_path: Path):
    path = write_csv(tmp_path / "m.csv", innings(1))
    path.write_text(path.read_text("utf-8").splitlines()[0] + "\n", "utf-8")
    tables, problems = read_all(source(path, "delivery-csv"))
    assert said(problems) == [f"{path}: no delivery in it: its files have a header and no rows"]
    assert tables.matches.num_rows == 0


def test_a_number_of_the_ball_is_not_taken_for_its_over(tmp_path: Path):
    rows = [row | {"ball": n} for n, row in enumerate(innings(1), start=1)]
    (problem,) = as_csv(tmp_path / "m.csv", rows)[1]
    assert ":2:1: '1' tells no over: expected such as 0.1 for ball, or a column" in problem
    tables, problems = as_csv(tmp_path / "m.csv", [row | {"over": 3} for row in rows])
    assert problems == [] and set(tables.deliveries["over"].to_pylist()) == {3}


def test_spaces_around_a_cell_make_no_other_match_and_nobody_else(tmp_path: Path):
    rows = innings(1)
    spaced = [{name: f" {cell} " for name, cell in row.items()} for row in rows[::2]]
    plain, _ = as_csv(tmp_path / "plain.csv", rows)
    tables, problems = as_csv(tmp_path / "spaced.csv", [*rows[1::2], *spaced])
    assert problems == []
    assert tables.matches["match_id"].to_pylist() == ["m1"]
    assert told(tables)["people"] == told(plain)["people"]


def test_an_innings_that_was_put_in_twice_is_refused_with_its_line(tmp_path: Path):
    """Not one in which some labels stand twice, nor a few balls after wides."""
    labelled = [
        {**row, "ball": f"{at // 6}.{at % 6 + 1}"} for at, row in enumerate(innings(1)[:18])
    ]
    for row in labelled:
        row.pop("over", None)
    _, problems = as_csv(tmp_path / "m.csv", [*labelled, *labelled])
    (problem,) = problems
    assert ":2:1: innings 1: every ball stands more than once; keep each of them once" in problem
    assert as_csv(tmp_path / "some.csv", [*labelled, *labelled[:3]])[1] == []
    assert as_csv(tmp_path / "few.csv", [*labelled[:4], *labelled[:4]])[1] == []


def test_what_is_said_on_a_later_row_is_not_lost(tmp_path: Path):
    """Of a match and of an innings: the first row that says something counts."""
    rows = [{**row, "winner": "", "target_runs": ""} for row in [*innings(1), *innings(2)]]
    rows[2]["winner"], rows[-1]["target_runs"] = "Northmoor", "99"
    tables, problems = as_csv(tmp_path / "m.csv", rows)
    assert problems == []
    assert tables.matches["winner"].to_pylist() == ["Northmoor"]
    assert tables.innings["target_runs"].to_pylist() == [None, 99]


def test_the_days_of_an_info_file_say_how_long_a_match_was(tmp_path: Path):
    folder = write_delivery_csv(tmp_path / "rows", match(BALLS))
    with (folder / "m1_info.csv").open("a", encoding="utf-8") as info:
        info.write("\ninfo,date,2030/05/01\ninfo,date,2030/05/03\ninfo,date,2030/05/02\n")
    tables, problems = read_all(source(folder, "delivery-csv"))
    assert problems == []
    assert str(tables.matches["last_day"][0]) == "2030-05-03" > str(tables.matches["date"][0])
