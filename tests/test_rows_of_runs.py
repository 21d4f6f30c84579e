"""Rows of runs as they are read: what is not recorded is none, and what counts by the Laws."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from pipeline.ingest.laws import score
from pipeline.ingest.row_checks import FROM_0
from tests.builders import match, read_all, rows_of, source, write_csv
from tests.refusing import BALLS, said

EXTRAS = ("wides", "noballs", "byes", "legbyes", "penalty")


def test_runs_of_a_kind_that_a_file_has_no_column_for_are_none(tmp_path: Path):
    rows = rows_of(match(BALLS[::2]))
    for row in rows:
        for name in ("extras", *EXTRAS[1:]):
            del row[name]
    tables, problems = read_all(source(write_csv(tmp_path / "m.csv", rows), "delivery-csv"))
    assert problems == [] and tables.deliveries["runs_batter"].to_pylist() == [1, 0]
    for name in EXTRAS:
        assert tables.deliveries[name].to_pylist() == [0, 0]


def test_blank_extras_are_none_and_blank_runs_off_the_bat_are_an_error(tmp_path: Path):
    rows = rows_of(match(BALLS))
    assert rows[0]["wides"] == ""
    path = write_csv(tmp_path / "m.csv", rows)
    tables, problems = read_all(source(path, "delivery-csv"))
    assert problems == [] and tables.deliveries["wides"].to_pylist() == [0, 2, 0]
    for row in rows[1:]:
        row["runs_off_bat"] = " "
    tables, problems = read_all(source(write_csv(path, rows), "delivery-csv"))
    assert said(problems) == [f"{path}:3:1: runs_batter is blank; 1 more row like it"]
    assert tables.deliveries.num_rows == 0


@pytest.mark.parametrize("name", ["innings", "ball", "striker", "bowler", "runs_off_bat"])
@pytest.mark.parametrize("text", ["", "  "])
def test_a_blank_that_no_delivery_can_do_without_is_an_error(tmp_path: Path, name: str, text: str):
    rows = rows_of(match(BALLS))
    rows[1][name] = text
    path = write_csv(tmp_path / "m.csv", rows)
    ours = {"striker": "batter", "runs_off_bat": "runs_batter"}.get(name, name)
    assert said(read_all(source(path, "delivery-csv"))[1]) == [f"{path}:3:1: {ours} is blank"]


def test_only_four_and_six_runs_off_the_bat_are_boundaries():
    """Five and seven are run; so are a four and a six that crossed no boundary."""
    runs = np.array([3, 4, 5, 6, 7, 4, 6])
    none, ran = np.zeros(7, int), np.array([False] * 5 + [True] * 2)
    found = score(runs, none, none, none, none, none, ran, np.ones(7, bool))
    assert np.flatnonzero(found.four).tolist() == [1] and np.flatnonzero(found.six).tolist() == [3]
    assert found.runs_total.tolist() == found.runs_bowler.tolist() == runs.tolist()


@pytest.mark.parametrize("place", ["player_dismissed", "other_player_dismissed"])
@pytest.mark.parametrize("column", [False, True])
def test_somebody_out_without_a_kind_of_dismissal_is_an_error(
    tmp_path: Path, place: str, column: bool
):
    """Else the wicket would be lost in silence."""
    kind = {"player_dismissed": "wicket_type", "other_player_dismissed": "other_wicket_type"}[place]
    rows = rows_of(match(BALLS))
    for row in rows:
        row |= {"wicket_type": "", "player_dismissed": ""} | ({kind: ""} if column else {})
        row[place] = ""
        if not column:
            row.pop(kind, None)
    rows[1][place] = "A Batt"
    path = write_csv(tmp_path / "m.csv", rows)
    tables, problems = read_all(source(path, "delivery-csv"))
    ours = "other_" if place.startswith("other") else ""
    assert said(problems) == [
        f"{path}:3:1: {ours}player_out is 'A Batt', but {ours}dismissal is blank"
    ]
    assert tables.matches.num_rows == 0


@pytest.mark.parametrize("text", ["0", "00", "0.0"])
def test_no_over_and_no_innings_is_nought(tmp_path: Path, text: str):
    rows = [row | {"over": "1"} for row in rows_of(match(BALLS))]
    path = write_csv(tmp_path / "m.csv", [{**rows[0], "over": text}])
    assert said(read_all(source(path, "delivery-csv"))[1]) == [
        f"{path}:2:1: over 0: the first over is 1; {FROM_0}"
    ]
    path = write_csv(tmp_path / "m.csv", [{**rows[0], "innings": text}])
    assert said(read_all(source(path, "delivery-csv"))[1]) == [
        f"{path}:2:1: innings {text}: expected 1 to 99"
    ]
