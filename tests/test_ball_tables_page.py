"""config/BALL-TABLES.md: its columns are the contract's, and its examples are what is counted."""

from __future__ import annotations

import re
from pathlib import Path

import pyarrow.compute as pc
import pytest

from pipeline import tables as wanted
from pipeline.clean.overs import balls_of
from pipeline.ingest.ball_tables.match_contract import TABLES
from pipeline.ingest.ball_tables.page import as_made, made
from pipeline.ingest.columns import Tables
from pipeline.open_layouts.match_types import CODES, WORDS
from tests.ball_tables import MATCH, csv_text, write
from tests.builders import read_all, source
from tests.conftest import ROOT

PAGE = (ROOT / "config" / "BALL-TABLES.md").read_text("utf-8")
BLOCK = re.compile(r"```csv (\w+)\n(.*?)```", re.DOTALL)
COUNTS = re.compile(r"^Counts: (.*(?:\n(?!\n).*)*)$", re.MULTILINE)
EXAMPLES = {
    part.split("\n", 1)[0]: part
    for part in re.split(r"^##+ ", PAGE, flags=re.MULTILINE)
    if COUNTS.search(part)
}
# What follows from the Laws, or is of the project, and so is no column of the layout.
FOLLOWS = {
    "deliveries": {
        *("legal", "faced", "runs_total", "runs_bowler", "four", "six"),
        *("wickets", "bowler_wickets", "dismissal", "player_out_id"),
    },
    "dismissals": {"out", "bowler_credited"},
    "matches": {"source"},
}


def counted(found: Tables) -> dict[str, int]:
    def total(table: str, column: str) -> int:
        return pc.sum(getattr(found, table)[column]).as_py() or 0

    (match,) = found.matches.to_pylist()
    overs = found.innings["target_overs"].to_pylist()
    balls = [balls_of(each, match["balls_per_over"]) or 0 for each in overs]
    penalties = [total("innings", f"penalty_{when}") for when in ("pre", "post")]
    sums = {
        **{"valid balls": "legal", "faced": "faced", "runs": "runs_total"},
        **{"charged": "runs_bowler", "wickets": "wickets", "bowler's wickets": "bowler_wickets"},
        **{"fours": "four", "sixes": "six"},
    }
    return {
        "deliveries": found.deliveries.num_rows,
        **{said: total("deliveries", column) for said, column in sums.items()},
        "innings": found.innings.num_rows,
        "innings forfeited": total("innings", "forfeited"),
        "overs marked": total("innings", "miscounted_overs"),
        "penalty runs of innings": sum(penalties),
        "balls of the target": sum(balls),
        "super overs": match["super_overs"],
    }


@pytest.mark.parametrize("title", EXAMPLES)
def test_an_example_counts_what_the_page_says(tmp_path: Path, title: str):
    files = {"matches.csv": csv_text([MATCH])}
    files |= {f"{name}.csv": text for name, text in BLOCK.findall(EXAMPLES[title])}
    found, problems = read_all(source(write(tmp_path / "own", files), "ball-tables"))
    assert problems == []
    now = counted(found)
    said = dict(
        re.fullmatch(r"(.+?) (\d+)", part.strip()).groups()
        for part in COUNTS.search(EXAMPLES[title])[1].split(",")
    )
    assert {"deliveries", "valid balls", "runs", "wickets"} <= set(said)
    assert {name: int(number) for name, number in said.items()} == {
        name: now[name] for name in said
    }


def test_every_unusual_ball_has_its_example():
    asked = (
        *("wide", "no-ball", "penalty runs on", "overthrows", "several dismissals", "retired hurt"),
        *("non-striker run out", "timed out", "long one", "tenth", "forfeited", "reduced target"),
        *("penalty runs of an innings", "super over", "substitute"),
    )
    titles = " / ".join(EXAMPLES).lower()
    assert not [name for name in asked if name not in titles]
    assert len(EXAMPLES) == 18


def test_the_page_has_the_contracts_tables():
    assert as_made(PAGE) == PAGE
    for part in made():
        assert PAGE.count(f"<!-- {part}: made -->") == 1


@pytest.mark.parametrize("name", TABLES)
def test_the_columns_are_those_of_our_tables_without_what_follows(name: str):
    ours = getattr(wanted, name.upper()).names
    assert TABLES[name].names == [n for n in ours if n not in FOLLOWS.get(name, ())]


@pytest.mark.parametrize("name", TABLES)
def test_every_column_says_what_a_blank_means(name: str):
    for column in TABLES[name].columns:
        assert column.meaning and column.blank, column.name
        assert not (column.needed and column.default is not None), column.name


def test_each_code_has_one_of_the_pages_words():
    assert set(CODES.values()) == set(WORDS)
    assert all(f"| `{word}` |" in PAGE for word in WORDS)
