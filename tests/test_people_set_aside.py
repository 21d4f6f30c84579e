"""Lines of `people` with a mistake are set aside and told; what can't be converted is named."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pyarrow as pa
import pytest

from pipeline.config.project import Source
from pipeline.convert.convert import write_converted
from pipeline.convert.write import TableWriters
from pipeline.errors import UserError
from tests.ball_tables import Row, small, texts, write
from tests.builders import (
    cleaned_sources,
    delivery,
    match,
    read_all,
    rows,
    source,
    write_folder,
)
from tests.untidy import matches as untidy

SIDES = {"n": "Northmoor", "s": "Southfen"}


def people(**changed: Row) -> list[Row]:
    """Everybody of the small source; what is changed, by id."""
    return [
        {"id": one, "name": f"{one.upper()} Batt", "team": SIDES[one[0]], "gender": "female"}
        | {"registered": 1}
        | changed.get(one, {})
        for one in ("n1", "n2", "s1", "s2")
    ]


def set_aside(tmp_path: Path, **changed: Row) -> Source:
    files = texts({**small(), "people": people(**changed)})
    return source(write(tmp_path / "own", files), "ball-tables", on_error="quarantine")


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ({"name": ""}, "people.csv:3:1: name is blank"),
        ({"name": "  "}, "people.csv:3:1: name is blank"),
        ({"team": ""}, "people.csv:3:1: team is blank"),
        ({"gender": "F"}, "people.csv:3:1: gender: 'F'; expected female or male or unknown"),
        ({"registered": "perhaps"}, "people.csv:3:1: registered: 'perhaps' is none"),
    ],
)
def test_a_line_with_a_mistake_is_set_aside_and_its_player_called_by_the_id(
    tmp_path: Path, cell: Row, said: str
):
    given = set_aside(tmp_path, n2=cell)
    tables, problems = read_all(given)
    assert len(problems) == 1 and said in str(problems[0])
    names = {row["id"]: row["name"] for row in tables.people.to_pylist()}
    assert names == {"n1": "N1 Batt", "n2": "n2", "s1": "S1 Batt", "s2": "S2 Batt"}
    assert {row["gender"] for row in tables.people.to_pylist()} == {"female"}
    assert tables.matches.num_rows == 2  # nothing of the play is lost
    converted = write_converted(given, tmp_path / "new", "csv")
    assert [said in str(each) for each in converted.left_out] == [True]
    after, problems = read_all(source(tmp_path / "new", "ball-tables"))
    assert problems == [] and after.people.to_pylist() == tables.people.to_pylist()
    data = cleaned_sources(tmp_path, [given], {})
    assert {row["id"]: row["name"] for row in rows(data, "players")} == names


def test_with_stop_it_is_an_error(tmp_path: Path):
    files = texts({**small(), "people": people(n2={"name": ""})})
    given = source(write(tmp_path / "own", files), "ball-tables")
    with pytest.raises(UserError, match=r"people\.csv:3:1: name is blank"):
        write_converted(given, tmp_path / "new", "csv")
    assert not (tmp_path / "new").exists()


def test_another_line_of_the_same_player_keeps_the_name(tmp_path: Path):
    lines = [*people(n2={"name": ""}), {**people()[1], "team": "Northmoor Second"}]
    files = texts({**small(), "people": lines})
    tables, problems = read_all(source(write(tmp_path / "own", files), "ball-tables"))
    assert len(problems) == 1
    assert {row["name"] for row in tables.people.to_pylist() if row["id"] == "n2"} == {"N2 Batt"}


def test_an_id_of_name_and_side_is_still_told_apart_by_gender(tmp_path: Path):
    """A line that is set aside says that the file gave no id, and that stays."""
    tables = small()
    tables["matches"][1]["gender"] = "male"
    for ball in tables["deliveries"]:
        for role in ("batter_id", "non_striker_id", "bowler_id"):
            ball[role] = "N2 (Northmoor)" if ball[role] == "n2" else ball[role]
    lines = people(n2={"id": "N2 (Northmoor)", "name": "", "registered": 0})
    files = texts({**tables, "people": lines})
    given = source(write(tmp_path / "own", files), "ball-tables", on_error="quarantine")
    found, _ = read_all(given)
    (mine,) = [row for row in found.people.to_pylist() if row["id"].startswith("N2")][:1]
    assert mine["registered"] is False


def test_who_was_timed_out_is_somebody_without_a_table_of_people(tmp_path: Path):
    """Out at neither end: only the dismissal names him, and what is written names him too."""
    tables = small()
    tables["dismissals"] = [{**tables["dismissals"][0], "kind": "timed out", "player_out_id": "n9"}]
    given = source(write(tmp_path / "own", texts(tables)), "ball-tables")
    found, problems = read_all(given)
    assert problems == []
    (him,) = [row for row in found.people.to_pylist() if row["id"] == "n9"]
    assert (him["team"], him["gender"]) == ("Northmoor", "female")
    write_converted(given, tmp_path / "new", "csv")
    assert "n9,n9,female,Northmoor" in (tmp_path / "new" / "people.csv").read_text("utf-8")


@pytest.mark.parametrize("form", ["csv", "parquet"])
@pytest.mark.parametrize(
    ("info", "table", "row", "said"),
    [
        ({"gender": "girls"}, "matches", "match_id 'm2'", "gender: 'girls'; expected female or"),
        ({"season": " "}, "matches", "match_id 'm2'", "season is blank"),
    ],
)
def test_what_our_tables_refuse_is_told_by_source_table_line_and_row(
    tmp_path: Path, form: str, info: dict[str, Any], table: str, row: str, said: str
):
    found = {"m1.json": untidy()[3], "m2.json": match([delivery(1)], **info)}
    given = source(write_folder(tmp_path / "json", found), on_error="quarantine")
    with pytest.raises(UserError) as caught:
        write_converted(given, tmp_path / "new", form)
    first, *_, last = map(str, caught.value.problems)
    where = f"source 'pebbles' can't stand in the table {table}, line 3 as it would be written ("
    assert f"{tmp_path}/json: {where}" in first and row in first and said in first
    assert "nothing was written; mend that in the source, or keep the layout" in last
    assert [path.name for path in tmp_path.iterdir()] == ["json"]


def test_a_blank_gender_of_a_match_file_is_not_known(tmp_path: Path):
    found = {"m1.json": match([delivery(1)], gender=" ")}
    given = source(write_folder(tmp_path / "json", found))
    write_converted(given, tmp_path / "new", "csv")
    after, _ = read_all(source(tmp_path / "new", "ball-tables"))
    assert after.matches["gender"].to_pylist() == ["unknown"]


@pytest.mark.parametrize("role", ["batter", "non_striker", "bowler", "player_out"])
def test_a_match_file_with_a_blank_name_is_refused_with_its_ball(tmp_path: Path, role: str):
    ball = delivery(wicket={"kind": "bowled", "player_out": "A Batt"})
    if role == "player_out":
        ball["wickets"][0]["player_out"] = ""
    else:
        ball[role] = " "
    found = {"m1.json": match([delivery(1), ball])}
    tables, problems = read_all(source(write_folder(tmp_path / "json", found)))
    assert tables.matches.num_rows == 0
    said = f"m1.json: innings 1, over 1, delivery 2: {role} is blank; expected a name"
    assert len(problems) == 1 and said in str(problems[0])


def test_a_side_without_a_name_is_refused(tmp_path: Path):
    found = {"m1.json": match([], teams=["Northmoor", ""])}
    _, problems = read_all(source(write_folder(tmp_path / "json", found)))
    assert "info.teams: a side without a name" in str(problems[0])


def test_people_that_are_read_again_otherwise_are_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """A writer that calls a person something else is found out, and says whom."""
    whole = TableWriters.write

    def renaming(self: TableWriters, name: str, rows: Any) -> None:
        if name == "people":
            names = ["Nobody", *rows["name"].to_pylist()[1:]]
            rows = rows.set_column(rows.column_names.index("name"), "name", pa.array(names))
        whole(self, name, rows)

    monkeypatch.setattr(TableWriters, "write", renaming)
    given = source(write(tmp_path / "own", texts(small())), "ball-tables")
    with pytest.raises(UserError) as caught:
        write_converted(given, tmp_path / "new", "csv")
    first = str(caught.value.problems[0])
    assert "the table people is not the same ('Nobody' (n1, Northmoor), 'n1' (n1, Nor" in first
