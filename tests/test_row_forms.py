"""Foreign cells as ours are written: dates, overs, codes, kinds of extras, repeated deliveries."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

from pipeline.config.written import Written
from pipeline.errors import UserError
from pipeline.ingest.row_forms import EXTRAS
from tests.builders import COLUMNS, match, read_all, rows_of, source, write_csv
from tests.refusing import BALLS, said


def made(**cells: Any) -> list[dict[str, Any]]:
    """The rows of three balls; `cells` are of every row."""
    return [{**row, **cells} for row in rows_of(match(BALLS))]


def without_kinds() -> list[dict[str, Any]]:
    """The same without a column for each kind of extras."""
    return [{n: c for n, c in row.items() if n not in EXTRAS} for row in made()]


def as_table(path: Path, columns: dict[str, str | None] | None = None, **written: Any) -> Any:
    """Read as layout `table`; a column of None is not mapped."""
    form = {"date_format": written.pop("date_format")} if "date_format" in written else {}
    chosen = {ours: theirs for ours, theirs in {**COLUMNS, **(columns or {})}.items() if theirs}
    return read_all(source(path, "table", columns=chosen, written=Written(**written), **form))


def dates(tables: Any) -> list[str]:
    return [str(row["date"]) for row in tables.matches.to_pylist()]


@pytest.mark.parametrize(
    ("cell", "form"),
    [
        ("31/05/2019", "DD/MM/YYYY"),
        ("05/31/2019", "MM/DD/YYYY"),
        ("31 May 2019", "DD MMM YYYY"),
        ("2019-05-31 14:30:00", "YYYY-MM-DD hh:mm:ss"),
    ],
)
def test_dates_of_another_form(tmp_path: Path, cell: str, form: str):
    path = write_csv(tmp_path / "t.csv", made(start_date=cell))
    tables, problems = as_table(path, date_format=form)
    assert problems == [] and dates(tables) == ["2019-05-31"]


@pytest.mark.parametrize("cell", ["05/31/2019", "2019-05-31", "soon"])
def test_a_date_of_no_such_form_is_named_with_the_form(tmp_path: Path, cell: str):
    """Not even one that ours would be: a table with two forms is not understood."""
    path = write_csv(tmp_path / "t.csv", made(start_date=cell))
    (problem,) = said(as_table(path, date_format="DD/MM/YYYY")[1])
    assert "t.csv:2:1: " in problem and cell in problem and "DD/MM/YYYY" in problem


@pytest.mark.parametrize(
    ("name", "cells", "first", "over"),
    [
        ("over", "0", 0, 1),
        ("over", "19", 0, 20),
        ("over", "1", None, 1),
        ("over", "1.0", 1, 1),
        ("ball", "1.4", 1, 1),
        ("ball", "0.4", None, 1),
        ("ball", "0,4", 0, 1),
    ],
)
def test_where_overs_begin(tmp_path: Path, name: str, cells: str, first: int | None, over: int):
    rows = made(**{"ball": "0.1", name: cells})
    columns = {"ball": None, "over": "over"} if name == "over" else {}
    path = write_csv(tmp_path / "t.csv", rows)
    tables, problems = as_table(path, columns, overs_from=first)
    assert problems == [] and set(tables.deliveries["over"].to_pylist()) == {over}


@pytest.mark.parametrize(("cell", "first"), [("0", 1), ("-1", 0), ("one", 0)])
def test_an_over_before_the_first_is_named(tmp_path: Path, cell: str, first: int):
    path = write_csv(tmp_path / "t.csv", made(over=cell))
    columns = {"ball": None, "over": "over"}
    assert any("t.csv:2:1" in line for line in said(as_table(path, columns, overs_from=first)[1]))


def test_words_of_its_own(tmp_path: Path):
    rows = made(start_date="2019-05-31")
    rows[2] |= {"wicket_type": "Bwd", "byes": "NA"}
    rows[0] |= {"wicket_type": "not out"}
    path = write_csv(tmp_path / "t.csv", rows)
    words = {"dismissal": {"Bwd": "bowled", "not out": ""}}
    tables, problems = as_table(path, {"season": None}, values=words, blank=["NA"], season="year")
    assert problems == []
    assert tables.dismissals["kind"].to_pylist() == ["bowled"]
    assert tables.matches["season"].to_pylist() == ["2019"]


def test_extras_by_their_kind(tmp_path: Path):
    """A ball of each kind; the kinds of a table that has a column a kind come to the same."""
    runs = {"": 0, "wides": 2, "noballs": 1, "byes": 4, "legbyes": 1, "penalty": 5}
    rows = [{**without_kinds()[0], "extras": n, "kind": kind} for kind, n in runs.items()]
    path = write_csv(tmp_path / "t.csv", rows)
    tables, problems = as_table(path, {"extra_kind": "kind", "extras": "extras"})
    assert problems == []
    for name in ("wides", "noballs", "byes", "legbyes", "penalty"):
        wanted = [n if kind == name else 0 for kind, n in runs.items()]
        assert tables.deliveries[name].to_pylist() == wanted, name
    assert tables.deliveries["legal"].to_pylist() == [True, False, False, True, True, True]


@pytest.mark.parametrize(
    ("kind", "runs", "message"),
    [
        ("overthrow", 1, "'overthrow' is no kind of extras; expected wides, noballs, byes"),
        ("wides", 0, "wides, but extras is blank or 0"),
        ("wides", "", "wides, but extras is blank or 0"),
        ("", 2, "extras 2, but extra_kind is blank"),
    ],
)
def test_extras_that_are_of_no_kind_are_named(tmp_path: Path, kind: str, runs: Any, message: str):
    rows = [{**row, "extras": 0, "kind": ""} for row in without_kinds()]
    rows[1] |= {"extras": runs, "kind": kind}
    path = write_csv(tmp_path / "t.csv", rows)
    lines = said(as_table(path, {"extra_kind": "kind", "extras": "extras"})[1])
    assert any("t.csv:3:1" in line and message in line for line in lines), lines


def test_extras_are_told_in_one_way(tmp_path: Path):
    path = write_csv(tmp_path / "t.csv", made(kind=""))
    with pytest.raises(UserError, match="extra_kind and wides say the same of a ball"):
        as_table(path, {"extra_kind": "kind", "extras": "extras"})


def test_kinds_need_their_runs(tmp_path: Path):
    rows = [{**row, "kind": ""} for row in without_kinds()]
    for row in rows:
        del row["extras"]
    path = write_csv(tmp_path / "t.csv", rows)
    with pytest.raises(UserError, match=r"nothing for extras"):
        as_table(path, {"extra_kind": "kind"})


def repeated(*more: dict[str, Any]) -> list[dict[str, Any]]:
    """Three balls with their numbers, the second of them told once more for each of `more`."""
    rows = [{**row, "number": at} for at, row in enumerate(made(), start=1)]
    rows[1] |= {"wicket_type": "run out", "player_dismissed": "B Batt"}
    return [*rows[:2], *({**rows[1], **cells} for cells in more), rows[2]]


def test_a_ball_told_once_for_each_dismissal_is_one_ball(tmp_path: Path):
    other = {"wicket_type": "retired out", "player_dismissed": "A Batt"}
    path = write_csv(tmp_path / "t.csv", repeated(other))
    tables, problems = as_table(path, {"delivery": "number"})
    assert problems == []
    assert tables.deliveries.num_rows == 3
    assert tables.deliveries["wickets"].to_pylist() == [0, 2, 1]
    outs = zip(*(tables.dismissals[n].to_pylist() for n in ("kind", "delivery")), strict=True)
    assert sorted(outs) == [("bowled", 3), ("retired out", 2), ("run out", 2)]


@pytest.mark.parametrize(
    ("more", "message"),
    [
        ([{}, {}], "more than two dismissals on delivery 2"),
        ([{"wicket_type": "", "player_dismissed": ""}], "delivery 2 stands twice, and not for two"),
        ([{"runs_off_bat": 4}], "delivery 2 stands twice, and not for two dismissals"),
        ([{"number": "x"}], "'x' is no number of a delivery"),
    ],
)
def test_a_ball_that_stands_twice_is_named(tmp_path: Path, more: list, message: str):
    rows = repeated(*more)
    for row in rows:
        row["ball"] = "0.2"  # what is asked here is the number alone
    path = write_csv(tmp_path / "t.csv", rows)
    lines = said(as_table(path, {"delivery": "number"})[1])
    assert any(message in line for line in lines), lines


@pytest.mark.parametrize(
    ("delimiter", "mark"), [("semicolon", ";"), ("tab", "\t"), ("bar", "|"), ("comma", ",")]
)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "windows-1252"])
def test_other_delimiters_and_letters(tmp_path: Path, delimiter: str, mark: str, encoding: str):
    rows = made(venue="Pré; d'en Haut, 2")
    path = write_csv(tmp_path / "t.csv", rows)
    cells = [list(rows[0]), *[[str(cell) for cell in row.values()] for row in rows]]
    quoted = [
        mark.join(f'"{cell}"' if {";", ","} & {*cell} else cell for cell in row) for row in cells
    ]
    path.write_bytes("\r\n".join([*quoted, ""]).encode(encoding))
    tables, problems = as_table(path, delimiter=delimiter, encoding=encoding)
    assert problems == []
    assert tables.matches["venue"].to_pylist() == ["Pré; d'en Haut, 2"]
    assert tables.deliveries.num_rows == 3


def test_a_mistake_keeps_its_line_whatever_stands_between_cells(tmp_path: Path):
    rows = made(note='a "b", c')
    rows[2]["runs_off_bat"] = "many"
    path = write_csv(tmp_path / "t.csv", rows)
    head, *lines = path.read_text("utf-8").splitlines()
    told = [line.replace(",", ";").replace('b""; c', 'b"", c') for line in lines]
    path.write_text("\n".join([head.replace(",", ";"), "", *told, ""]), "utf-8")
    (problem,) = said(as_table(path, delimiter="semicolon")[1])
    assert "t.csv:5:1: 'many' is no count for runs_batter" in problem


@pytest.mark.parametrize(
    ("data", "written", "message"),
    [
        (b"a;b\n\xe9;1\n", {"delimiter": "semicolon"}, r"not utf-8 text \(byte 4\)"),
        (b"a,b\n\x81,1\n", {"encoding": "windows-1252"}, r"not windows-1252 text \(byte 4\)"),
        (b'a;b\n"c;1\n', {"delimiter": "semicolon"}, "not a readable CSV"),
    ],
)
def test_what_is_not_as_it_is_said_to_be_is_named(tmp_path: Path, data, written, message):
    path = tmp_path / "t.csv"
    path.write_bytes(data)
    with pytest.raises(UserError, match=message):
        as_table(path, **written)


def test_a_constant_stands_for_a_column_that_is_needed(tmp_path: Path):
    rows = [{name: cell for name, cell in row.items() if name != "season"} for row in made()]
    path = write_csv(tmp_path / "t.csv", rows)
    columns = {ours: theirs for ours, theirs in COLUMNS.items() if ours != "season"}
    given = source(path, "table", columns=columns, constants={"season": "2020/21"})
    tables, problems = read_all(given)
    assert problems == [] and tables.matches["season"].to_pylist() == ["2020/21"]


def test_rows_are_put_in_the_order_of_their_numbers(tmp_path: Path):
    """A number of all deliveries of a table does as well as one in its over."""
    rows = [{**row, "ball": "0.0", "number": at} for at, row in enumerate(made(), start=1_009)]
    path = write_csv(tmp_path / "t.csv", rows[::-1])
    tables, problems = as_table(path, {"delivery": "number"})
    assert problems == []
    runs = [int(row["runs_off_bat"]) for row in rows]
    assert tables.deliveries["runs_batter"].to_pylist() == runs
    assert tables.deliveries["delivery"].to_pylist() == [1, 2, 3]


def test_the_season_is_said_once(tmp_path: Path):
    with pytest.raises(ValidationError, match="the season is in 'columns' or 'constants' and in"):
        as_table(write_csv(tmp_path / "t.csv", made()), season="year")


def test_how_cells_are_written_goes_with_a_table_only(tmp_path: Path):
    for more in ({"written": Written(overs_from=0)}, {"query": "SELECT 1 ORDER BY 1"}):
        with pytest.raises(ValidationError, match="goes with layout 'table', and only with it"):
            source(tmp_path / "m.csv", "delivery-csv", **more)
