"""Rows of runs as they are read: what is not recorded is none, and what counts by the Laws."""

from __future__ import annotations

import numpy as np
import pandas as pd

from pipeline.ingest.laws import score
from pipeline.ingest.row_checks import Bad, numbered


def test_runs_of_a_kind_that_a_table_has_no_column_for_are_none():
    frame = pd.DataFrame(
        {"runs_batter": ["4", ""], "wides": ["", "2"], "innings": ["1", "1"], "over": ["1", "1"]}
        | {"date": ["2020-06-01"] * 2}
    )
    bad = Bad()
    found = numbered(frame.assign(match_id="m1", file="m.csv", line=[2, 3]), bad)
    assert bad.problems == []
    assert found["runs_batter"].tolist() == [4, 0] and found["wides"].tolist() == [0, 2]
    for name in ("noballs", "byes", "legbyes", "penalty"):
        assert found[name].tolist() == [0, 0]


def test_the_first_row_of_many_that_are_wrong_alike_is_told():
    bad = Bad()
    frame = pd.DataFrame(
        {"a": ["x", "y"], "match_id": ["m1", "m2"], "file": "m.csv", "line": [2, 3]}
    )
    bad.rows(frame, frame["a"] != "", "'{a}' is none")
    assert bad.matches == {"m1", "m2"}
    (problem,) = bad.problems
    assert problem.line == 2 and problem.message.startswith("'x' is none; 1 more row like it")


def test_only_four_and_six_runs_off_the_bat_are_boundaries():
    """Five and seven are run; so are a four and a six that crossed no boundary."""
    runs = np.array([3, 4, 5, 6, 7, 4, 6])
    none, ran = np.zeros(7, int), np.array([False] * 5 + [True] * 2)
    found = score(runs, none, none, none, none, none, ran, np.ones(7, bool))
    assert np.flatnonzero(found.four).tolist() == [1] and np.flatnonzero(found.six).tolist() == [3]
    assert found.runs_total.tolist() == found.runs_bowler.tolist() == runs.tolist()
