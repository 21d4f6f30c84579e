"""Matches drawn at random, as tables of our own: what is read is what was drawn, blanks and all."""

from __future__ import annotations

import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

import pyarrow.compute as pc
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.ingest.laws import CREDITED, KINDS, NOT_OUT
from tests.ball_tables import MATCH, as_parquet, ball, out, texts, write
from tests.builders import read_all, source

EXTRAS = ("wides", "noballs", "byes", "legbyes", "penalty")
NAMES = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), min_size=1).filter(
    lambda name: name.strip() == name
)
RUNS = st.integers(0, 7)


@st.composite
def deliveries(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Some overs of one innings; blanks stand for nought where they may."""
    names = draw(st.lists(NAMES, min_size=3, max_size=3, unique=True))
    rows = []
    for over in range(1, draw(st.integers(1, 3)) + 1):
        for delivery in range(1, draw(st.integers(1, 11)) + 1):
            extras = {kind: draw(st.sampled_from(["", 0, 1, 4])) for kind in EXTRAS}
            who = dict(zip(("batter_id", "non_striker_id", "bowler_id"), names, strict=True))
            rows.append(ball(delivery, over, runs_batter=draw(RUNS), **extras, **who))
    return rows


@st.composite
def dismissals(draw: st.DrawFn, rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Up to four, of somebody at the ends each, on any deliveries."""
    picked = draw(st.lists(st.integers(0, len(rows) - 1), max_size=4, unique=True))
    kinds = st.sampled_from(sorted(KINDS))
    return [
        out(rows[at]["delivery"], draw(kinds), rows[at]["batter_id"], over=rows[at]["over"])
        for at in picked
    ]


@settings(max_examples=25, deadline=None)
@given(st.data(), st.booleans())
def test_what_is_drawn_is_what_is_counted(data: st.DataObject, parquet: bool):
    rows = data.draw(deliveries())
    wickets = data.draw(dismissals(rows))
    tables = {"matches": [MATCH], "deliveries": rows, "dismissals": wickets}
    with tempfile.TemporaryDirectory() as folder:
        path = write(Path(folder) / "own", texts(tables))
        found, problems = read_all(source(as_parquet(path) if parquet else path, "ball-tables"))
    assert problems == []
    number = {name: sum(int(row[name] or 0) for row in rows) for name in (*EXTRAS, "runs_batter")}
    sums = {name: pc.sum(found.deliveries[name]).as_py() for name in number}
    assert sums == number
    charged = number["runs_batter"] + number["wides"] + number["noballs"]
    assert pc.sum(found.deliveries["runs_bowler"]).as_py() == charged
    valid = sum(not int(row["wides"] or 0) and not int(row["noballs"] or 0) for row in rows)
    assert pc.sum(found.deliveries["legal"]).as_py() == valid
    kinds = Counter(row["kind"] for row in wickets)
    assert Counter(found.dismissals["kind"].to_pylist()) == kinds
    bowled = sum(count for kind, count in kinds.items() if kind in CREDITED)
    fallen = sum(count for kind, count in kinds.items() if kind not in NOT_OUT)
    assert pc.sum(found.deliveries["bowler_wickets"]).as_py() == bowled
    assert pc.sum(found.deliveries["wickets"]).as_py() == fallen
    assert set(found.deliveries["batter_id"].to_pylist()) == {row["batter_id"] for row in rows}
