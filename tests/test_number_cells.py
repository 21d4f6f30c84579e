"""A number cell is plain decimal digits, in every layout and table; nothing else is guessed at."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.ingest.ball_tables.match_contract import TABLES
from pipeline.ingest.number_cells import count_of, flag_of, is_ball, number_of
from tests.ball_tables import MATCH, ball, out, texts, write
from tests.builders import COLUMNS, match, read_all, rows_of, source, write_csv, write_folder
from tests.refusing import BALLS, said

quick = settings(max_examples=40, deadline=None)
NEVER = (
    *("0x1", "0X1", "0b1", "1e0", "1E2", "+1", "-0", "1_0", "1__0", "٣", "１", "²", "½", "1.5"),
    *("1.", ".1", "1.00", "1,0", "1 0", "--1", "1-", "nan", "inf", "None", "#1", "1'000"),
)
spelled = st.text("0123456789xXeEbo+-_., ٣１'", min_size=1, max_size=6) | st.sampled_from(NEVER)
odd = spelled.filter(lambda t: t.strip() and not re.fullmatch(r"[0-9]{1,9}(\.0)?", t.strip()))
OWN = [
    (table.name, column.name)
    for table in TABLES.values()
    for column in table.columns
    if column.holds in ("count", "flag")
]
RUNS = ("wides", "noballs", "byes", "legbyes", "penalty")
FLAGS = ("non_boundary", "delivered", "declared", "forfeited", "super_over")
MORE = {
    **{"over": 1, "overs_limit": 50, "balls_per_over": 6, "revision": 1, "target_runs": 9},
    **{"penalty_pre": 0, "penalty_post": 5, "non_boundary": 0, "delivered": 1, "declared": 1},
    **{"forfeited": 0, "super_over": 0},
}
ROW = ["innings", "runs_off_bat", "extras", *RUNS, *MORE]


@pytest.mark.parametrize("text", NEVER)
def test_what_is_no_number(text: str):
    assert number_of(text) is None and count_of(text, 999) is None and flag_of(text) is None


@pytest.mark.parametrize(
    ("text", "number"), [("0", 0), ("12", 12), (" 3 ", 3), ("3\u00a0", 3), ("4.0", 4), ("007", 7)]
)
def test_what_is_one(text: str, number: int):
    assert number_of(text) == count_of(text, 999) == number


def test_a_count_has_no_sign_and_an_end():
    assert number_of("-3") == -3 and count_of("-3", 9) is None
    assert count_of("9", 9) == 9 and count_of("10", 9) is None and number_of("1" * 10) is None
    assert is_ball("0.10") and is_ball(" 7 ") and not any(map(is_ball, ("0.", "0.٣", "1e1", "")))


def own(**cells: Any) -> dict[str, list[dict[str, Any]]]:
    """Two matches with every column of numbers filled; `cells` are of first rows, by table."""
    extra = {**dict.fromkeys(RUNS, 0), "non_boundary": 0, "delivered": 1}
    tables = {
        "matches": [
            {**MATCH, "match_id": name, "balls_per_over": 6, "target": 9, "revision": 1}
            | {"super_overs": 0}
            for name in ("m1", "m2")
        ],
        "deliveries": [ball(1, match=name, **extra) for name in ("m1", "m2")],
        "dismissals": [out(1, match_id=name) for name in ("m1", "m2")],
        "innings": [
            {"match_id": name, "innings": 1, "batting_team": "Northmoor", "target_runs": 9}
            | {"penalty_pre": 0, "penalty_post": 5, "declared": 1, "forfeited": 0}
            | {"miscounted_overs": 0}
            for name in ("m1", "m2")
        ],
        "people": [
            {"id": name, "name": name, "team": "x", "registered": 1}
            for name in ("n1", "n2", "s1", "s2")
        ],
    }
    for name, given_cells in cells.items():
        tables[name][0] |= given_cells
    return tables


def read_own(**cells: Any) -> Any:
    with tempfile.TemporaryDirectory() as folder:
        path = write(Path(folder) / "own", texts(own(**cells)))
        return read_all(source(path, "ball-tables"))


@pytest.mark.parametrize(("table", "column"), OWN)
@settings(max_examples=8, deadline=None)
@given(text=odd)
def test_our_own_tables_name_any_other_spelling(table: str, column: str, text: str):
    tables, problems = read_own(**{table: {column: text}})
    assert any(f"/{table}.csv:2:1: {column}: " in line for line in said(problems)), said(problems)
    if table != "people":
        assert tables.matches["match_id"].to_pylist() == ["m2"]


@pytest.mark.parametrize(("table", "column"), OWN)
def test_our_own_tables_read_the_plain_ones(table: str, column: str):
    wanted, problems = read_own()
    assert problems == []
    number = own()[table][0].get(column, 0)
    for text in (f" {number} ", f"{number}.0"):
        tables, problems = read_own(**{table: {column: text}})
        assert problems == [], text
        for name in TABLES:
            assert getattr(tables, name).to_pylist() == getattr(wanted, name).to_pylist()


def of_rows(layout: str, **cells: Any) -> Any:
    """Two matches in one file; `cells` are of the first row."""
    rows = [{**row, **MORE} for name in ("m1", "m2") for row in rows_of(match(BALLS), name)]
    rows[0] |= cells
    columns = {**COLUMNS, "over": "over", "delivery": "nr"}
    for number, row in enumerate(rows, start=1):
        row["nr"] = row.get("nr", number)
    with tempfile.TemporaryDirectory() as folder:
        path = write_csv(Path(folder) / "t.csv", rows)
        more = {"columns": columns} if layout == "table" else {}
        return read_all(source(path, layout, **more))


@pytest.mark.parametrize("layout", ["delivery-csv", "table"])
@pytest.mark.parametrize("column", ROW)
@settings(max_examples=6, deadline=None)
@given(text=odd)
def test_rows_name_any_other_spelling(layout: str, column: str, text: str):
    tables, problems = of_rows(layout, **{column: text})
    ours = {"runs_off_bat": "runs_batter"}.get(column, column)
    named = [line for line in said(problems) if "t.csv:2:1: " in line and ours in line]
    assert named, said(problems)
    assert tables.matches["match_id"].to_pylist() == ["m2"]


@pytest.mark.parametrize("layout", ["delivery-csv", "table"])
@pytest.mark.parametrize("column", ROW)
def test_rows_read_the_plain_ones(layout: str, column: str):
    wanted, problems = of_rows(layout)
    assert problems == []
    number = {**rows_of(match(BALLS))[0], **MORE}[column] or 0
    for text in (f" {number} ", f"{number}.0"):
        tables, problems = of_rows(layout, **{column: text})
        assert problems == [], text
        for name in ("deliveries", "matches", "innings"):
            assert getattr(tables, name).to_pylist() == getattr(wanted, name).to_pylist()


@pytest.mark.parametrize("label", ["0x0.1", "0.1e2", "+0.1", "0.٣", "0,1", "٠.1", "0.1.", "0._1"])
def test_a_ball_is_labelled_in_plain_digits(label: str):
    tables, problems = of_rows("delivery-csv", ball=label)
    assert any("t.csv:2:1: " in line and "ball" in line for line in said(problems))
    assert tables.matches["match_id"].to_pylist() == ["m2"]


@pytest.mark.parametrize("number", ["0x1", "1e0", "+1", "٣", "1_0"])
def test_a_delivery_is_numbered_in_plain_digits(number: str):
    _, problems = of_rows("table", nr=number)
    lines = said(problems)
    assert any("t.csv:2:1: " in each and "no number of a delivery" in each for each in lines)


BESIDE = {
    "matches.csv": "match_id,overs_limit,balls_per_over,revision\n{m},50,6,1\n",
    "innings.csv": "match_id,innings,target_runs,penalty_pre,penalty_post\n{m},1,9,0,5\n",
}
INFO = ("overs", "balls_per_over", "revision", "winner_runs", "innings,1,target_runs")


def beside(name: str, text: str) -> Any:
    """A match's rows with one file beside them."""
    with tempfile.TemporaryDirectory() as folder:
        path = write_folder(Path(folder) / "rows", {name: text})
        write_csv(path / "m1.csv", rows_of(match(BALLS)))
        write_csv(path / "m2.csv", rows_of(match(BALLS), "m2"))
        return read_all(source(path, "delivery-csv"))


@pytest.mark.parametrize("name", BESIDE)
@quick
@given(st.data(), odd)
def test_tables_beside_the_rows_name_any_other_spelling(name: str, data: st.DataObject, text: str):
    header, row = BESIDE[name].replace("{m}", "m1").split("\n")[:2]
    at = data.draw(st.integers(1, header.count(",")))
    cells = row.split(",")
    cells[at] = f'"{text}"'
    tables, problems = beside(name, f"{header}\n{','.join(cells)}\n")
    column = header.split(",")[at]
    assert any(f"{name}:2:1: " in line and column in line for line in said(problems))
    assert tables.matches["match_id"].to_pylist() == ["m2"]


@pytest.mark.parametrize("key", INFO)
@settings(max_examples=15, deadline=None)
@given(text=odd)
def test_info_files_name_any_other_spelling(key: str, text: str):
    tables, problems = beside("m1_info.csv", f'info,gender,female\ninfo,{key},"{text}"\n')
    assert any("m1_info.csv:2:1: " in line and key[-9:] in line for line in said(problems))
    assert tables.matches["match_id"].to_pylist() == ["m2"]


@pytest.mark.parametrize("key", INFO)
def test_info_files_read_the_plain_ones(key: str):
    tables, problems = beside("m1_info.csv", f"info,{key}, 6.0 \n")
    assert problems == []
    first = tables.matches.to_pylist()[0]
    innings = tables.innings.to_pylist()[0]
    found = {
        **{"overs": first["overs_limit"], "balls_per_over": first["balls_per_over"]},
        **{"revision": first["revision"], "winner_runs": first["margin"]},
        "innings,1,target_runs": innings["target_runs"],
    }
    assert found[key] == ("6 runs" if key == "winner_runs" else 6)
