"""Tables as tools write them: nulls, bytes, doubles, odd columns; lost is nothing."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq
import pytest

from pipeline.errors import UserError
from pipeline.ingest.limits import MOST_DELIVERIES, MOST_INNINGS, MOST_PEOPLE
from tests.builders import COLUMNS, match, read_all, rows_of, source, write_csv
from tests.refusing import BALLS, said

MORE = {"wides", "noballs", "byes", "legbyes", "penalty", "revision", "overs_limit"}


def made(**cells: Any) -> list[dict[str, Any]]:
    """The rows of three balls, numbers as numbers; `cells` are of every row."""
    found = [{**row, "revision": 1, "overs_limit": 50} for row in rows_of(match(BALLS))]
    for row in found:
        row.update({name: int(row[name] or 0) for name in MORE}, **cells)
    return found


def parquet(path: Path, rows: list[dict[str, Any]], **types: pa.DataType) -> Path:
    """A Parquet table; None is a null, and a column of nothing else has the type of nulls."""
    table = pa.Table.from_pylist(rows)
    for name, kind in types.items():
        at = table.schema.get_field_index(name)
        table = table.set_column(at, name, table[name].cast(kind))
    pq.write_table(table, path)
    return path


def as_table(path: Path, **more: Any) -> Any:
    given = source(path, "table", columns={**COLUMNS, **more.pop("columns", {})}, **more)
    return read_all(given)


@pytest.mark.parametrize(
    "name",
    [
        *("wides", "revision", "overs_limit", "batter_id", "striker", "bowler", "batting_team"),
        *("wicket_type", "player_dismissed", "season", "match_id", "start_date", "ball", "venue"),
    ],
)
@pytest.mark.parametrize("where", ["first", "all"])
def test_a_null_means_what_a_blank_cell_means(tmp_path: Path, name: str, where: str):
    nulls, blanks = made(batter_id="id-a"), made(batter_id="id-a")
    for row in range(len(nulls) if where == "all" else 1):
        nulls[row][name], blanks[row][name] = None, ""
    for row in [*nulls, *blanks]:
        row.update({n: row[n] or None for n in ("wicket_type", "player_dismissed")})
    path = parquet(tmp_path / "t.parquet", nulls)
    found, problems = as_table(path)
    wanted, others = as_table(write_csv(tmp_path / "t.csv", blanks))
    assert said(problems) == [text.replace("t.csv", "t.parquet") for text in said(others)]
    for table in ("deliveries", "dismissals", "matches", "innings", "people"):
        assert getattr(found, table).to_pylist() == getattr(wanted, table).to_pylist(), table


def test_doubles_days_bytes_and_codes_are_read_as_their_text(tmp_path: Path):
    rows = made(season=2018.0, match_id=7.0, start_date=datetime(2018, 6, 1), venue=b"Pebble Field")
    path = parquet(tmp_path / "t.parquet", rows, striker=pa.dictionary(pa.int32(), pa.string()))
    tables, problems = as_table(path)
    (row,) = tables.matches.to_pylist()
    assert problems == []
    assert (row["season"], row["match_id"], row["date"]) == ("2018", "7", date(2018, 6, 1))
    assert row["venue"] == "Pebble Field"


@pytest.mark.parametrize(
    ("cells", "message"),
    [
        ({"venue": b"Pebble \xe9"}, "t.parquet: not a readable Parquet table: Invalid UTF8"),
        ({"venue": ["a", "b"]}, "t.parquet: column 'venue' holds list<"),
        ({"wides": float("inf")}, "'inf' is no count for wides"),
        ({"season": None}, "season is blank; 2 more rows like it"),
        ({"match_id": None}, "match_id is blank; 2 more rows like it"),
    ],
)
def test_what_is_no_text_is_named(tmp_path: Path, cells: dict[str, Any], message: str):
    path = parquet(tmp_path / "t.parquet", made(**cells))
    try:
        problems = as_table(path)[1]
    except UserError as error:
        problems = error.problems
    assert any(message in text and "t.parquet" in text for text in said(problems))


def test_a_mapped_name_is_of_its_column_alone(tmp_path: Path):
    """The file has a column of our name beside the one that is mapped."""
    rows = [{**row, "bat": row.pop("striker"), "batter": "Nobody"} for row in made()]
    for path in (parquet(tmp_path / "t.parquet", rows), write_csv(tmp_path / "t.csv", rows)):
        tables, problems = as_table(path, columns={"batter": "bat"})
        assert problems == []
        assert "A Batt (Northmoor)" in tables.deliveries["batter_id"].to_pylist()


def test_one_column_may_be_two_of_ours(tmp_path: Path):
    path = write_csv(tmp_path / "t.csv", made())
    tables, problems = as_table(path, columns={"batter_id": "striker"})
    assert problems == [] and "A Batt" in tables.deliveries["batter_id"].to_pylist()


def test_a_mapped_column_that_is_not_there_is_named_though_it_could_be_left_out(tmp_path: Path):
    path = write_csv(tmp_path / "t.csv", made())
    with pytest.raises(UserError, match=r"nothing for wides \('wide_runs'\)"):
        as_table(path, columns={"wides": "wide_runs"})


def test_a_column_that_stands_twice_is_named(tmp_path: Path):
    path = write_csv(tmp_path / "t.csv", made())
    text = path.read_text("utf-8").replace("noballs", "wides", 1)
    path.write_text(text, "utf-8")
    with pytest.raises(UserError, match="column 'wides' stands twice"):
        as_table(path)


@pytest.mark.parametrize("damage", [b"pandas", b"PAR1", b"striker"])
def test_a_damaged_table_is_named(tmp_path: Path, damage: bytes):
    path = tmp_path / "t.parquet"
    table = pa.Table.from_pylist(made())
    broken = table.replace_schema_metadata({"pandas": '{"columns": [{"name": "venue"}]}'})
    pq.write_table(broken, path)
    path.write_bytes(path.read_bytes().replace(damage, b"\xff" * len(damage)))
    try:
        as_table(path)
    except UserError as error:
        assert str(path) in str(error)


def test_what_pandas_says_of_itself_in_a_table_is_not_asked(tmp_path: Path):
    table = pa.Table.from_pylist(made())
    told = '{"index_columns": [], "columns": [{"name": "venue", "pandas_type": "unicode"}]}'
    pq.write_table(table.replace_schema_metadata({"pandas": told}), tmp_path / "t.parquet")
    tables, problems = as_table(tmp_path / "t.parquet")
    assert problems == [] and tables.deliveries.num_rows == 3


@pytest.mark.parametrize(
    ("constants", "message"),
    [
        ({"balls_per_over": "six"}, "'six' is no count for balls_per_over; expected 1 to 99"),
        ({"match_typ": "one-day"}, r"nothing is called 'match_typ' \(did you mean 'match_type'"),
    ],
)
def test_constants_that_mean_nothing_are_named(tmp_path: Path, constants: dict, message: str):
    with pytest.raises(UserError, match=message):
        as_table(write_csv(tmp_path / "t.csv", made()), constants=constants)


@pytest.mark.parametrize(
    ("cells", "message"),
    [
        ({"innings": 0}, "innings 0: expected 1 to"),
        ({"innings": MOST_INNINGS + 1}, f"expected 1 to {MOST_INNINGS}; 2 more rows like it"),
        ({"innings": "9" * 5000}, "is no count for innings"),
        ({"innings": "١"}, "is no count for innings"),
        ({"start_date": "٢٠٢٠-٠٦-٠١"}, "is no date"),
        ({"start_date": "0000-01-01"}, "'0000-01-01' is no date"),
    ],
)
def test_numbers_beyond_all_bounds_are_named(tmp_path: Path, cells: dict, message: str):
    path = write_csv(tmp_path / "t.csv", made(**cells))
    problems = said(as_table(path)[1])
    assert any(message in text and len(text) < 400 for text in problems)


def test_more_than_an_over_or_a_match_has_room_for_is_named(tmp_path: Path):
    row = made()[0]
    many = [row] * (MOST_DELIVERIES + 1)
    found = said(as_table(write_csv(tmp_path / "o.csv", many))[1])
    assert f"more than {MOST_DELIVERIES} deliveries in over 1" in found[0] and len(found) == 1
    people = [{**row, "striker": f"P{n}"} for n in range(MOST_PEOPLE)]
    found = said(as_table(write_csv(tmp_path / "p.csv", people))[1])
    assert f"more than {MOST_PEOPLE} people at the two ends" in found[0] and len(found) == 1
