"""The layout of our own: what is read, and every mistake with its file and line."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq
import pytest

from pipeline.errors import UserError
from pipeline.ingest.ball_tables import read as read_module
from pipeline.ingest.ball_tables import typed_blocks
from pipeline.ingest.columns import Tables
from pipeline.ingest.limits import MOST_WICKETS
from tests.ball_tables import MATCH, as_parquet, ball, csv_text, out, small, texts, write, zipped
from tests.builders import read_all, source


def read(path: Path) -> Tables:
    tables, problems = read_all(source(path, "ball-tables"))
    assert problems == []
    return tables


def told(path: Path) -> list[str]:
    """The mistakes of a source, without its folder."""
    _, problems = read_all(source(path, "ball-tables"))
    return [str(problem).removeprefix(f"{path}/") for problem in problems]


def of_rows(tmp_path: Path, **tables: list[dict[str, Any]]) -> Path:
    return write(tmp_path / "own", texts({**small(), **tables}))


def figures(tables: Tables) -> tuple[int, ...]:
    runs = sum(tables.deliveries["runs_total"].to_pylist())
    wickets = sum(tables.deliveries["wickets"].to_pylist())
    return tables.matches.num_rows, tables.innings.num_rows, len(tables.deliveries), runs, wickets


def test_a_folder_a_zip_csv_and_parquet_say_the_same(tmp_path: Path):
    folder = write(tmp_path / "csv", texts(small()))
    archive = zipped(tmp_path / "own.zip", {f"in/{n}": t for n, t in texts(small()).items()})
    parquet = as_parquet(write(tmp_path / "parquet", texts(small())))
    members = {path.name: path.read_bytes() for path in parquet.iterdir()}
    both = zipped(tmp_path / "parquet.zip", members)
    found = [read(path) for path in (folder, archive, parquet, both)]
    assert figures(found[0]) == (2, 4, 8, 12, 1)
    for other in found[1:]:
        for name in ("deliveries", "dismissals", "matches", "innings", "people"):
            assert getattr(other, name).to_pylist() == getattr(found[0], name).to_pylist()


def test_what_a_blank_and_a_missing_column_mean(tmp_path: Path):
    rows = [ball(1, wides="", non_boundary=""), ball(2, runs_batter=4, wides="", non_boundary=1)]
    tables = read(of_rows(tmp_path, deliveries=rows, dismissals=[]))
    first, second = tables.deliveries.to_pylist()
    assert (first["wides"], first["byes"], first["delivered"], first["legal"]) == (0, 0, True, True)
    assert not second["four"]
    match = tables.matches.to_pylist()[0]
    assert match["last_day"] == match["date"] and match["balls_per_over"] == 6
    assert match["revision"] == 1 and match["super_overs"] == 0 and match["winner"] is None


def test_a_match_without_deliveries_counts_and_is_read_once(tmp_path: Path):
    tables = read(of_rows(tmp_path, deliveries=[ball(1), ball(2)]))
    assert sorted(tables.matches["match_id"].to_pylist()) == ["m1", "m2"]
    assert tables.innings["match_id"].to_pylist() == ["m1"]


def test_parts_are_read_in_the_order_of_their_numbers(tmp_path: Path):
    files = texts(small())
    rows = small()["deliveries"]
    del files["deliveries.csv"]
    files["deliveries-2.csv"] = csv_text(rows[:1])
    files["deliveries-10.csv"] = csv_text(rows[1:])  # the same match goes on
    assert figures(read(write(tmp_path / "own", files))) == (2, 4, 8, 12, 1)


def test_small_blocks_give_the_same_tables(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    folder = write(tmp_path / "own", texts(small()))
    whole = read(folder)
    monkeypatch.setattr(typed_blocks, "BLOCK", 260)  # three rows, within a match
    pieces = read(folder)
    assert pieces.deliveries.to_pylist() == whole.deliveries.to_pylist()
    assert pieces.dismissals.to_pylist() == whole.dismissals.to_pylist()


def test_a_mistake_in_a_later_block_leaves_the_earlier_ones_as_they_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    rows = small()["deliveries"]
    rows[-1]["runs_batter"] = "x"
    monkeypatch.setattr(typed_blocks, "BLOCK", 260)
    tables, (problem,) = read_all(source(of_rows(tmp_path, deliveries=rows), "ball-tables"))
    assert "deliveries.csv:9:1: runs_batter: 'x' is none" in str(problem)
    assert figures(tables) == (1, 2, 4, 6, 1)


def test_a_blank_in_quotes_is_a_blank(tmp_path: Path):
    rows = [{**row, "wides": "", "non_boundary": ""} for row in small()["deliveries"]]
    plain = {**small(), "deliveries": rows, "matches": [{**MATCH, "winner": ""}]}
    plain["deliveries"] = rows[:4]
    quoted = {
        name: re.sub(r"[^,\n]+|(?<=,)(?=[,\n])", lambda cell: f'"{cell[0]}"', text)
        for name, text in texts(plain).items()
    }
    assert '""' in quoted["deliveries.csv"] and '""' in quoted["matches.csv"]
    found = [read(write(tmp_path / name, t)) for name, t in (("a", texts(plain)), ("b", quoted))]
    assert found[1].matches.to_pylist() == found[0].matches.to_pylist()
    assert found[1].deliveries.to_pylist() == found[0].deliveries.to_pylist()


def test_how_far_it_is_is_told_where_there_are_many(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    monkeypatch.setattr(read_module, "MANY", 1)
    read(write(tmp_path / "own", texts(small())))
    assert re.search(r"^ingest pebbles: 100 % of \d matches", capsys.readouterr().err, re.MULTILINE)


def test_a_match_is_counted_once_however_small_the_blocks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    told: list[int] = []
    monkeypatch.setattr(typed_blocks, "BLOCK", 260)
    monkeypatch.setattr(read_module.Progress, "more", lambda _, count: told.append(count))
    read(write(tmp_path / "own", texts(small())))
    assert told == [1, 1]


def test_without_people_an_id_is_a_name_and_with_them_it_has_theirs(tmp_path: Path):
    plain = read(of_rows(tmp_path))
    assert {(p["id"], p["name"]) for p in plain.people.to_pylist()} == {
        (one, one) for one in ("n1", "n2", "s1", "s2")
    }
    named = [
        {"id": one, "name": f"A {one}", "team": "x", "gender": "female"}
        for one in ("n1", "n2", "s1", "s2")
    ]
    tables = read(write(tmp_path / "named", texts({**small(), "people": named})))
    assert tables.people["name"].to_pylist() == ["A n1", "A n2", "A s1", "A s2"]


def test_numbers_that_software_wrote_as_fractions_and_flags_in_words(tmp_path: Path):
    rows = [ball(1, runs_batter="4.0", non_boundary="TRUE"), ball(2, non_boundary="False")]
    tables = read(of_rows(tmp_path, deliveries=rows))
    assert tables.deliveries["runs_batter"].to_pylist() == [4, 0]
    assert tables.deliveries["non_boundary"].to_pylist() == [True, False]


WRONG = [
    ({"runs_batter": ""}, "runs_batter is blank"),
    ({"runs_batter": "four"}, "runs_batter: 'four' is none; expected whole number of runs"),
    ({"runs_batter": "-1"}, "runs_batter: -1; expected a whole number of runs, 0 to 999"),
    ({"runs_batter": 4000}, "runs_batter: 4000; expected a whole number of runs, 0 to 999"),
    ({"over": 0}, "over: 0; expected a whole number, 1 to 999"),
    ({"batter_id": ""}, "batter_id is blank"),
    ({"non_boundary": "maybe"}, "non_boundary: 'maybe' is none; expected 1 or 0"),
    ({"delivery": 3}, "delivery 3 of match 'm1' is not the next one"),
    ({"over": 7, "delivery": 2}, "innings 1, over 7, delivery 2 of match 'm1' is not the next"),
    ({"batting_team": "Eastbeck"}, "'Eastbeck' against 'Southfen' in innings 1 of match 'm1'"),
    ({"bowling_team": "Northmoor"}, "'Northmoor' against 'Northmoor' in innings 1"),
]


@pytest.mark.parametrize("form", ["csv", "parquet"])
@pytest.mark.parametrize(("cell", "said"), WRONG, ids=[said[:30] for _, said in WRONG])
def test_a_mistake_has_its_line_and_its_match_is_left_out(
    tmp_path: Path, form: str, cell: dict[str, Any], said: str
):
    rows = small()["deliveries"]
    rows[1] |= cell
    folder = of_rows(tmp_path, deliveries=rows)
    if form == "parquet":
        as_parquet(folder)
    tables, problems = read_all(source(folder, "ball-tables"))
    lines = [str(problem) for problem in problems if problem.file.endswith(f"deliveries.{form}")]
    assert lines and lines[0].startswith(f"{folder}/deliveries.{form}:3:1: ") and said in lines[0]
    assert tables.matches["match_id"].to_pylist() == ["m2"]
    assert tables.innings.num_rows == 2 and tables.dismissals.num_rows == 0


def test_the_same_mistake_on_many_rows_is_told_once_with_the_first_line(tmp_path: Path):
    rows = small()["deliveries"]
    for row in (rows[2], rows[3], rows[6]):
        row["runs_batter"] = "x"
    (line,) = told(of_rows(tmp_path, deliveries=rows))
    assert line.startswith("deliveries.csv:4:1: runs_batter: 'x' is none")
    assert line.endswith("; 2 more rows like it, in matches m1 and m2")


def test_a_line_is_the_files_own_where_cells_hold_line_breaks_and_lines_are_empty(tmp_path: Path):
    rows = small()["deliveries"]
    rows[0]["batter_id"] = "n1\nthe elder"
    rows[3]["runs_batter"] = ""
    text = csv_text(rows).replace("\nm1,2,1,1", "\n\nm1,2,1,1")
    files = {**texts(small()), "deliveries.csv": text}
    del files["dismissals.csv"]
    (line,) = told(write(tmp_path / "own", files))
    assert line.startswith("deliveries.csv:7:1: runs_batter is blank")


def test_braces_and_long_cells_are_told_as_they_are(tmp_path: Path):
    rows = small()["deliveries"]
    rows[0]["runs_batter"] = "{over}" + "9" * 400
    (line,) = told(of_rows(tmp_path, deliveries=rows))
    assert "runs_batter: '{over}999" in line and len(line) < 200


DISMISSED = [
    (out(2, "lost"), "'lost' is no kind of dismissal; expected bowled, caught"),
    (out(3), "innings 1, over 1, delivery 3 of match 'm1' is not in deliveries"),
    (
        out(3, player="s1", match_id="m2", innings=2),
        "innings 2, over 1, delivery 3 of match 'm2' is not in deliveries",
    ),
    (out(2, match_id="m9"), "no match 'm9' in matches"),
    (out(2, player=""), "player_out_id is blank"),
]


@pytest.mark.parametrize(("row", "said"), DISMISSED)
def test_a_dismissal_that_is_none(tmp_path: Path, row: dict[str, Any], said: str):
    (line,) = told(of_rows(tmp_path, dismissals=[row]))
    assert line.startswith("dismissals.csv:2:1: ") and said in line


def test_a_dismissal_of_a_match_without_deliveries(tmp_path: Path):
    rows = [ball(1, match="m2")]
    path = of_rows(tmp_path, deliveries=rows, dismissals=[out(1)])
    tables, (problem,) = read_all(source(path, "ball-tables"))
    assert "is not in deliveries" in str(problem)
    assert tables.matches["match_id"].to_pylist() == ["m2"]


def test_nobody_is_out_twice_on_one_delivery(tmp_path: Path):
    (line,) = told(of_rows(tmp_path, dismissals=[out(2), out(2, "run out")]))
    assert line.startswith("dismissals.csv:3:1: a second dismissal of 'n1' on this delivery")


def test_more_dismissals_than_a_delivery_has_room_for(tmp_path: Path):
    many = [out(2, "run out", f"n{at}") for at in range(MOST_WICKETS + 1)]
    assert told(of_rows(tmp_path, dismissals=many[1:])) == []
    (line,) = told(write(tmp_path / "more", texts({**small(), "dismissals": many})))
    assert line == (
        f"dismissals.csv:2:1: more than {MOST_WICKETS} dismissals on one delivery; "
        f"{MOST_WICKETS} more rows like it"
    )


def innings_rows() -> list[dict[str, Any]]:
    return [
        {"match_id": match, "innings": number, "batting_team": side}
        for match in ("m1", "m2")
        for number, side in ((1, "Northmoor"), (2, "Southfen"))
    ]


def test_an_innings_table_lists_every_innings(tmp_path: Path):
    rows = innings_rows()
    assert told(of_rows(tmp_path, innings=rows)) == []
    (line,) = told(of_rows(tmp_path, innings=rows[:1] + rows[2:]))
    assert line.startswith("deliveries.csv:4:1: innings 2 of match 'm1' is not in innings")
    rows[1]["batting_team"] = "Northmoor"
    (line,) = told(of_rows(tmp_path, innings=rows))
    assert "in innings 2 of match 'm1': innings names the other side as batting" in line
    rows[1]["batting_team"] = "Eastbeck"
    assert any(
        "'Eastbeck' is no side of match 'm1'" in line
        for line in told(of_rows(tmp_path, innings=rows))
    )


def test_an_innings_of_no_match_and_a_side_against_itself(tmp_path: Path):
    rows = [*innings_rows(), {**innings_rows()[0], "match_id": "m9"}]
    (line,) = told(of_rows(tmp_path, innings=rows))
    assert line == "innings.csv:6:1: no match 'm9' in matches"
    matches = [MATCH, {**MATCH, "match_id": "m3", "team_2": MATCH["team_1"]}]
    balls = small()["deliveries"][:4]
    own = {**small(), "matches": matches, "deliveries": balls}
    (line,) = told(write(tmp_path / "itself", texts(own)))
    assert line == "matches.csv:3:1: 'Northmoor' against itself; expected two sides"


def test_what_a_blank_means_of_innings_and_people(tmp_path: Path):
    people = [{"id": one, "name": one, "team": "x"} for one in ("n1", "n2", "s1", "s2")]
    tables = read(of_rows(tmp_path, innings=innings_rows(), people=people))
    assert all(person["registered"] for person in tables.people.to_pylist())
    for row in tables.innings.to_pylist():
        assert not row["declared"] and not row["forfeited"] and row["target_runs"] is None
        assert (row["penalty_pre"], row["penalty_post"], row["miscounted_overs"]) == (0, 0, 0)


def test_people_and_matches_that_are_missing_or_stand_twice(tmp_path: Path):
    people = [{"id": one, "name": one, "team": "x"} for one in ("n1", "n2", "s1", "s2")]
    lines = told(of_rows(tmp_path, people=people + people[1:2]))
    assert len(lines) == 1 and lines[0].startswith("people.csv:6:1: a second row of id 'n2'")
    lines = told(of_rows(tmp_path, people=people[1:]))
    assert "deliveries.csv:2:1: nobody in people has the id 'n1': batter_id" in lines[0]
    assert len(lines) == 3  # and who bowls, and who was out
    (line,) = told(write(tmp_path / "one", texts({**small(), "matches": small()["matches"][:1]})))
    assert line.startswith("deliveries.csv:6:1: no match 'm2' in matches; 3 more rows like it")
    match = small()["matches"][0]
    lines = told(write(tmp_path / "twice", texts({**small(), "matches": [match, match]})))
    assert lines[1].startswith("matches.csv:3:1: a second row of match_id 'm1'")


HEADS = [
    ("batter_id", "batter", r"no column of deliveries is 'batter' \(did you mean 'batter_id'"),
    ("runs_batter,", "", "it lacks runs_batter"),
    ("over", "innings", "column 'innings' stands twice"),
]


@pytest.mark.parametrize(("name", "instead", "said"), HEADS)
def test_a_header_that_is_not_as_the_page_says(tmp_path: Path, name: str, instead: str, said: str):
    files = texts({**small(), "deliveries": [{**ball(1), "runs_batter": 0, "wides": 0}]})
    files["deliveries.csv"] = files["deliveries.csv"].replace(name, instead, 1)
    with pytest.raises(UserError, match=rf"deliveries\.csv:1:1: .*{said}"):
        read_all(source(write(tmp_path / "own", files), "ball-tables"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("m1,1,1,3,n1\n", r":10:1: 5 cells under 10 columns; a blank cell needs its comma"),
        ("m1,1,1,3,n1,n2,s1,Northmoor,Southfen,0,0\n", r":10:1: 11 cells under 10 columns"),
        ('m1,1,1,3,"n1,n2,s1,Northmoor,Southfen,0\n', r":10:1: not a readable CSV"),
    ],
)
def test_a_torn_row_stops_with_its_line(tmp_path: Path, text: str, said: str):
    files = texts(small())
    files["deliveries.csv"] += text
    with pytest.raises(UserError, match=rf"deliveries\.csv{said}"):
        read_all(source(write(tmp_path / "own", files), "ball-tables"))


def test_a_match_whose_rows_stand_apart_stops_with_its_line(tmp_path: Path):
    rows = small()["deliveries"]
    with pytest.raises(UserError, match=r"deliveries\.csv:8:1: match 'm1' begins again here"):
        read_all(
            source(of_rows(tmp_path, deliveries=rows[:2] + rows[4:] + rows[2:4]), "ball-tables")
        )


def test_files_that_are_missing_or_are_none(tmp_path: Path):
    files = texts(small())
    other = write(tmp_path / "own", {**files, "delivries.csv": "a\n1\n", ".x.csv": "a\n"})
    (line,) = told(other)
    assert line == "delivries.csv: no table of this layout (did you mean 'deliveries'?)"
    del files["matches.csv"]
    with pytest.raises(UserError, match=r"two: no table matches in it"):
        read_all(source(write(tmp_path / "two", files), "ball-tables"))
    (tmp_path / "own" / "deliveries.csv").write_text("", "utf-8")
    with pytest.raises(UserError, match=r"deliveries\.csv: not a readable CSV: there is nothing"):
        told(other)
    (tmp_path / "own" / "deliveries.csv").write_bytes(b"match_id\xff\n")
    with pytest.raises(UserError, match=r"deliveries\.csv:1:1: not UTF-8 text"):
        told(other)


def test_a_parquet_file_that_is_none_or_holds_what_no_cell_can(tmp_path: Path):
    folder = as_parquet(of_rows(tmp_path))
    path = folder / "deliveries.parquet"
    rows = pq.read_table(path)
    nested = rows.set_column(4, "batter_id", pa.array([["n1"]] * 8))
    pq.write_table(nested, path)
    with pytest.raises(UserError, match=r"deliveries\.parquet: column 'batter_id' holds list<"):
        told(folder)
    path.write_bytes(path.read_bytes()[:100])
    with pytest.raises(UserError, match=r"deliveries\.parquet: not a readable Parquet table"):
        told(folder)


def test_an_endless_match_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("pipeline.ingest.ball_tables.whole_matches.MOST_ROWS", 3)
    with pytest.raises(UserError, match=r"match 'm2' has more than 3 deliveries"):
        told(of_rows(tmp_path))
    monkeypatch.setattr("pipeline.ingest.ball_tables.whole_matches.MOST_ROWS", 4)
    assert told(tmp_path / "own") == []


def test_a_damaged_zip_is_named(tmp_path: Path):
    path = zipped(tmp_path / "own.zip", dict(texts(small())))
    data = bytearray(path.read_bytes())
    at = data.index(b"deliveries.csv") + 30
    data[at : at + 8] = b"\xff" * 8
    path.write_bytes(bytes(data))
    with pytest.raises(UserError, match=re.escape(f"{path}/deliveries.csv")):
        told(path)


def test_a_parquet_file_in_a_zip_may_be_so_large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    folder = as_parquet(of_rows(tmp_path))
    members = {path.name: path.read_bytes() for path in folder.iterdir()}
    path, largest = zipped(tmp_path / "own.zip", members), max(map(len, members.values()))
    name = next(name for name, data in members.items() if len(data) == largest)
    monkeypatch.setattr("pipeline.ingest.ball_tables.table_files.LARGEST_MEMBER", largest)
    assert told(path) == []
    monkeypatch.setattr("pipeline.ingest.ball_tables.table_files.LARGEST_MEMBER", largest - 1)
    with pytest.raises(UserError, match=rf"own\.zip/{name}: over {largest - 1:,} bytes"):
        told(path)


@pytest.mark.parametrize("table", ["deliveries", "dismissals"])
def test_a_number_past_its_limit_is_no_other_matchs_delivery(tmp_path: Path, table: str):
    names = ("m1", "m2", "m3")
    tables = {
        "matches": [{**MATCH, "match_id": name} for name in names],
        "deliveries": [ball(number, match=name) for name in names for number in (1, 2)],
        "dismissals": [out(2, match_id="m2")],
    }
    # 100001 in the first match: as one number with its innings, the first over of the second
    wrong = ball(2, over=100001) if table == "deliveries" else out(1, over=100001)
    tables[table].insert(2 if table == "deliveries" else 0, wrong)
    own = source(write(tmp_path / "own", texts(tables)), "ball-tables", on_error="quarantine")
    found, problems = read_all(own)
    fallen = [row for row in found.deliveries.to_pylist() if row["wickets"]]
    assert [(row["match_id"], row["delivery"]) for row in fallen] == [("m2", 2)]
    assert found.matches["match_id"].to_pylist() == ["m2", "m3"]
    assert "100001" in problems[0].message


@pytest.mark.parametrize(
    ("table", "column", "cells", "said"),
    [
        ("matches", "date", pa.array([20200601, 20200602], pa.int32()), "date: '20200601' is none"),
        ("matches", "date", pa.array([9**7, 1], pa.int32()).cast(pa.date32()), "date: '15065-"),
        ("deliveries", "runs_batter", pa.array(["0x10"] + ["1"] * 7), "runs_batter: '0x10' is"),
        ("deliveries", "runs_batter", pa.array([True] * 8), "runs_batter: 'true' is none"),
    ],
)
def test_a_parquet_cell_is_not_taken_for_another_type(
    tmp_path: Path, table: str, column: str, cells: pa.Array, said: str
):
    folder = as_parquet(of_rows(tmp_path))
    path = folder / f"{table}.parquet"
    rows = pq.read_table(path)
    pq.write_table(rows.set_column(rows.column_names.index(column), column, cells), path)
    assert said in told(folder)[0]


@pytest.mark.parametrize("day", ["0000-01-01", "-001-01-01"])
def test_a_day_that_no_calendar_has_is_named(tmp_path: Path, day: str):
    matches = [{**MATCH, "date": day}, {**MATCH, "match_id": "m2"}]
    (line,) = told(of_rows(tmp_path, matches=matches))
    assert line.startswith(f"matches.csv:2:1: date: '{day}' is none; expected day as YYYY-MM-DD")


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            {"gender": "Women"},
            "gender: 'Women'; expected female or male or unknown, or leave it blank",
        ),
        ({"last_day": "2020-05-31"}, "last_day 2020-05-31 is before date 2020-06-01"),
    ],
)
def test_a_match_that_would_be_no_topics_is_named(tmp_path: Path, more: dict, said: str):
    matches = [{**MATCH, **more}, {**MATCH, "match_id": "m2", "gender": ""}]
    (line,) = told(of_rows(tmp_path, matches=matches))
    assert line == f"matches.csv:2:1: {said}"


def test_a_persons_gender_is_one_of_its_words(tmp_path: Path):
    people = [
        {"id": one, "name": one, "team": "x", "gender": gender}
        for one, gender in (("n1", "F"), ("n2", "unknown"), ("s1", ""), ("s2", "male"))
    ]
    (line,) = told(of_rows(tmp_path, people=people))
    assert (
        line == "people.csv:2:1: gender: 'F'; expected female or male or unknown, or leave it blank"
    )


@pytest.mark.parametrize("table", ["deliveries", "dismissals"])
def test_a_row_of_no_match_stops_either_way(tmp_path: Path, table: str):
    rows = small()[table]
    rows[-1]["match_id"] = ""
    given = source(of_rows(tmp_path, **{table: rows}), "ball-tables", on_error="quarantine")
    with pytest.raises(UserError, match=rf"{table}\.csv:{len(rows) + 1}:1: match_id is blank"):
        read_all(given)
