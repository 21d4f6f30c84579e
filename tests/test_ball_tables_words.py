"""Cells of set words in tables of our own: each is held against its words, or its sides."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.convert.convert import write_converted
from pipeline.errors import UserError
from pipeline.ingest.ball_tables.match_contract import TABLES
from pipeline.ingest.ball_tables.page import PAGE
from tests.ball_tables import MATCH, as_parquet, ball, out, small, texts, write
from tests.builders import delivery, match, read_all, source, write_zip
from tests.conftest import ROOT


def told(path: Path) -> list[str]:
    """The mistakes of a source, without its folder."""
    _, problems = read_all(source(path, "ball-tables"))
    return [str(problem).removeprefix(f"{path}/") for problem in problems]


def matches(**cells: Any) -> list[dict[str, Any]]:
    return [{**MATCH, **cells}, {**MATCH, "match_id": "m2"}]


WORDS = [
    ("team_type", "Club", "expected international or club, or leave it blank (did you mean 'club"),
    ("team_type", "franchise", "expected international or club, or leave it blank"),
    ("toss_decision", "feild", "expected bat or field, or leave it blank (did you mean 'field'?)"),
    ("toss_decision", "bowl", "expected bat or field"),
    ("result", "Tied", "expected win or tie or draw or no result, or leave it blank (did you mean"),
    ("result", "abandoned", "expected win or tie or draw or no result"),
    ("gender", "femal", "expected female or male or unknown, or leave it blank (did you mean 'fem"),
    ("winner", "Northmor", "is no side of it; expected 'Northmoor' or 'Southfen', or leave it"),
    ("toss_winner", "Eastbeck", "is no side of it; expected 'Northmoor' or 'Southfen'"),
    ("method", "N/A", "names no rule; leave it blank where the balls decided"),
    ("method", "none", "names no rule"),
]


@pytest.mark.parametrize("form", ["csv", "parquet"])
@pytest.mark.parametrize(("column", "word", "said"), WORDS)
def test_a_word_that_is_none_of_its_column_is_named(
    tmp_path: Path, form: str, column: str, word: str, said: str
):
    folder = write(tmp_path / "own", texts({**small(), "matches": matches(**{column: word})}))
    if form == "parquet":
        as_parquet(folder)
    (line,) = told(folder)
    assert line.startswith(f"matches.{form}:2:1: {column}: '{word}'") and said in line
    tables, _ = read_all(source(folder, "ball-tables"))
    assert tables.matches["match_id"].to_pylist() == ["m2"]


@pytest.mark.parametrize("column", ["team_type", "toss_decision", "result", "gender"])
def test_each_of_its_words_and_a_blank_are_taken(tmp_path: Path, column: str):
    words = next(each.words for each in TABLES["matches"].columns if each.name == column)
    assert len(words) > 1
    for at, word in enumerate((*words, "")):
        tables = {**small(), "matches": matches(**{column: word})}
        assert told(write(tmp_path / str(at), texts(tables))) == []


def test_a_side_and_a_rule_are_taken_as_they_are_written(tmp_path: Path):
    cells = {"winner": "Southfen", "toss_winner": "Northmoor", "method": "by the tide table"}
    path = write(tmp_path / "own", texts({**small(), "matches": matches(**cells)}))
    tables, problems = read_all(source(path, "ball-tables"))
    first = tables.matches.to_pylist()[0]
    assert problems == [] and {name: first[name] for name in cells} == cells


def test_the_same_word_on_many_rows_is_told_once(tmp_path: Path):
    rows = [{**row, "result": "lost"} for row in matches()]
    (line,) = told(write(tmp_path / "own", texts({**small(), "matches": rows})))
    assert line.endswith("; 1 more row like it, in matches m1 and m2")


def innings(**cells: Any) -> list[dict[str, Any]]:
    """Both innings of m1 and m2; `cells` are of the second of m1."""
    rows = [
        {"match_id": name, "innings": number, "batting_team": side}
        for name in ("m1", "m2")
        for number, side in ((1, "Northmoor"), (2, "Southfen"))
    ]
    rows[1] |= cells
    return rows


@pytest.mark.parametrize(
    ("column", "cell", "said"),
    [
        ("target_overs", "abc", "expected overs and balls, such as 40 or 40.2, or leave it blank"),
        ("target_overs", "40.2.1", "expected overs and balls"),
        ("target_overs", "-4", "expected overs and balls"),
        ("target_overs", "0x10", "expected overs and balls"),
        ("miscounted", "14,20", "expected overs, as in 14;20"),
        ("miscounted", "fourteenth", "expected overs, as in 14;20"),
    ],
)
def test_a_cell_of_another_form_is_named(tmp_path: Path, column: str, cell: str, said: str):
    rows = innings(**{column: cell})
    (line,) = told(write(tmp_path / "own", texts({**small(), "innings": rows})))
    assert line.startswith(f"innings.csv:3:1: {column}: '{cell}'; ") and said in line


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("target_overs", "40"),
        ("target_overs", " 40.2 "),
        ("miscounted", "14"),
        ("miscounted", "1;2"),
    ],
)
def test_a_cell_of_its_form_is_taken(tmp_path: Path, column: str, cell: str):
    rows = innings(**{column: cell})
    assert told(write(tmp_path / "own", texts({**small(), "innings": rows}))) == []


def test_a_forfeited_innings_has_no_deliveries(tmp_path: Path):
    path = write(tmp_path / "own", texts({**small(), "innings": innings(forfeited=1)}))
    (line,) = told(path)
    assert line == (
        "deliveries.csv:4:1: innings 2 of match 'm1' has deliveries, and is forfeited in innings; "
        "take the mark or these rows away"
    )
    rows = [row for row in small()["deliveries"] if (row["match_id"], row["innings"]) != ("m1", 2)]
    tables = {**small(), "innings": innings(forfeited=1), "deliveries": rows}
    assert told(write(tmp_path / "two", texts(tables))) == []


def test_a_kind_of_dismissal_has_the_nearest_one(tmp_path: Path):
    tables = {**small(), "dismissals": [out(2, "Stumpd")]}
    (line,) = told(write(tmp_path / "own", texts(tables)))
    assert "'Stumpd' is no kind of dismissal" in line and "(did you mean 'stumped'?)" in line


def test_the_page_names_the_words():
    page = (ROOT / PAGE).read_text("utf-8")
    for column in TABLES["matches"].columns:
        if column.words:
            assert f"| `{column.name}` | {' or '.join(column.words)} |" in page
    assert "| `target_overs` | overs and balls, such as 40 or 40.2 |" in page


@pytest.mark.parametrize(
    ("info", "kind", "example"),
    [
        ({"outcome": {"winner": "Northmor"}}, "winners_of_neither_side", "m1: Northmor, of North"),
        ({"outcome": {"result": "tie", "eliminator": "X"}}, "winners_of_neither_side", "m1: X, of"),
        ({"toss": {"winner": "Y", "decision": "bat"}}, "tosses_won_by_neither_side", "m1: Y, of"),
    ],
)
def test_other_layouts_count_winners_that_are_no_side(
    tmp_path: Path, info: dict[str, Any], kind: str, example: str
):
    archive = write_zip(tmp_path / "m.zip", {"m1.json": match([delivery(1)], **info)})
    tables, problems = read_all_odd(archive)
    assert problems == [] and tables[kind].count == 1
    assert tables[kind].examples[0].startswith(example)
    with pytest.raises(UserError, match="is no side of it"):
        write_converted(source(archive), tmp_path / "own", "csv")


def read_all_odd(archive: Path) -> tuple[dict[str, Any], list[Any]]:
    from pipeline.ingest.oddities import merged
    from pipeline.ingest.read import read_source

    found = list(read_source(source(archive)))
    odd = merged(part.tables.odd for part in found)
    return odd, [problem for part in found for problem in part.problems]


def test_other_layouts_count_a_forfeited_innings_with_deliveries(tmp_path: Path):
    made = match([delivery(1)])
    made["innings"][0]["forfeited"] = True
    odd, problems = read_all_odd(write_zip(tmp_path / "m.zip", {"m1.json": made}))
    assert problems == [] and odd["forfeited_with_deliveries"].examples == ["m1, innings 1"]
    odd, _ = read_all_odd(write_zip(tmp_path / "n.zip", {"m1.json": match([delivery(1)])}))
    assert odd["forfeited_with_deliveries"].count == 0 == odd["winners_of_neither_side"].count


def test_a_ball_of_a_side_beyond_the_two_is_still_named(tmp_path: Path):
    rows = [ball(1, batting_team="Eastbeck"), ball(2, batting_team="Eastbeck")]
    lines = told(write(tmp_path / "own", texts({**small(), "deliveries": rows, "dismissals": []})))
    assert lines[0].startswith("deliveries.csv:2:1: 'Eastbeck' against 'Southfen'")
