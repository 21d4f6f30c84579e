"""Worked overs: what the Laws make of them, through ingest and the sums of metrics.

Clauses are of the MCC Laws of Cricket, 2017 Code; economy, average, strike rate and dots are common
practice, no published source. Every rate is made from balls: overs are never used as a number. Net
run rate is not computed by the project (there is no function for it), so no test works one out.
"""

from __future__ import annotations

from pathlib import Path

import duckdb
import pytest

from pipeline.ingest.chunk import Tables
from pipeline.metrics.query import sum_sql
from tests.builders import COLUMNS, delivery, match, read, read_all, rows_of, source, write_csv

NAMES = (
    *("legal", "faced", "runs_total", "runs_batter", "extras", "runs_bowler", "wickets"),
    *("bowler_wickets", "four", "six", "dot", "wides", "noballs"),
)


def sums(tables: Tables) -> dict[str, int]:
    """The sums that measures are made of, by the same SQL that metrics runs."""
    d = tables.deliveries  # noqa: F841 - read by name in the query
    listed = ", ".join(f"{sum_sql(name)} AS {name}" for name in NAMES)
    row = duckdb.connect().sql(f"SELECT {listed} FROM d").fetchall()[0]
    return dict(zip(NAMES, map(int, row), strict=True))


OVER = [
    delivery(1),
    delivery(wides=1),
    delivery(),
    delivery(4, noballs=1),
    delivery(legbyes=2),
    delivery(byes=4),
    delivery(1, wicket={"kind": "run out", "player_out": "B Batt"}),
    delivery(wicket={"kind": "caught", "player_out": "A Batt"}),
]


def test_one_over_of_everything(tmp_path: Path):
    """17.3 (valid), 21.16 and 22.6 (charged), 23 (byes), 33 and 38 (whose wicket)."""
    tables = read(tmp_path, match(OVER))
    found = sums(tables)
    assert tables.deliveries.num_rows == 8
    assert (found["legal"], found["faced"]) == (6, 7)
    assert (found["runs_total"], found["runs_batter"], found["extras"]) == (14, 6, 8)
    assert (found["wides"], found["noballs"], found["runs_bowler"]) == (1, 1, 8)
    assert (found["wickets"], found["bowler_wickets"]) == (2, 1)
    assert (found["four"], found["six"], found["dot"]) == (1, 0, 2)
    assert found["runs_total"] == found["runs_bowler"] + 2 + 4


def test_its_economy_average_and_strike_rate(tmp_path: Path):
    """Common practice, no published source."""
    found = sums(read(tmp_path, match(OVER)))
    economy = 6 * found["runs_bowler"] / found["legal"]
    average = found["runs_bowler"] / found["bowler_wickets"]
    strike_rate = found["legal"] / found["bowler_wickets"]
    assert (economy, average, strike_rate) == (8.0, 8.0, 6.0)
    assert average == pytest.approx(economy * strike_rate / 6)


def test_a_reduced_target_is_overs_and_balls_not_a_number(tmp_path: Path):
    """45.3 overs are 273 balls (common practice); kept as written, never as a fraction."""
    found = match(OVER)
    chase = {"team": "Southfen", "overs": [], "target": {"runs": 251, "overs": 45.3}}
    found["innings"].append(chase)
    innings = read(tmp_path, found).innings.to_pylist()
    assert (innings[1]["target_runs"], innings[1]["target_overs"]) == (251, "45.3")


def test_stumped_off_a_wide_is_a_wicket_on_no_ball(tmp_path: Path):
    """22.9 and 39: the bowler's wicket, one run charged, nothing faced."""
    out = {"kind": "stumped", "player_out": "A Batt"}
    found = sums(read(tmp_path, match([delivery(wicket=out, wides=1)])))
    assert (found["legal"], found["faced"], found["runs_bowler"]) == (0, 0, 1)
    assert (found["wickets"], found["bowler_wickets"]) == (1, 1)


def test_run_out_before_the_ball_is_delivered(tmp_path: Path):
    """17.3.1 and 38.3: a wicket on no ball; only a table can say that nothing was delivered."""
    out = {"kind": "run out", "player_out": "B Batt"}
    rows = [{**row, "delivered": 0} for row in rows_of(match([delivery(wicket=out)]))]
    path = write_csv(tmp_path / "table.csv", rows)
    columns = {**COLUMNS, "delivered": "delivered"}
    tables, problems = read_all(source(path, "table", columns=columns))
    found = sums(tables)
    assert problems == []
    assert (found["legal"], found["faced"], found["runs_bowler"]) == (0, 0, 0)
    assert (found["wickets"], found["bowler_wickets"]) == (1, 0)


def test_four_byes_in_a_maiden(tmp_path: Path):
    """23: byes are the team's, not the bowler's; the ball is valid and faced."""
    over = [delivery() for _ in range(6)]
    over[2] = delivery(byes=4)
    found = sums(read(tmp_path, match(over)))
    assert (found["legal"], found["faced"]) == (6, 6)
    assert (found["runs_total"], found["runs_bowler"], found["dot"]) == (4, 0, 5)


@pytest.mark.parametrize(
    ("kind", "wickets", "credited"),
    [
        *((kind, 1, 1) for kind in ("bowled", "caught", "caught and bowled", "hit wicket", "lbw")),
        ("stumped", 1, 1),
        *((kind, 1, 0) for kind in ("run out", "obstructing the field", "hit the ball twice")),
        *((kind, 1, 0) for kind in ("timed out", "retired out", "handled the ball")),
        *((kind, 0, 0) for kind in ("retired hurt", "retired ill", "retired not out")),
    ],
)
def test_who_gets_the_wicket(tmp_path: Path, kind: str, wickets: int, credited: int):
    """32 to 40 and 25.4 (clause numbers from memory)."""
    out = {"kind": kind, "player_out": "A Batt"}
    tables = read(tmp_path, match([delivery(wicket=out)]))
    found = sums(tables)
    assert (found["wickets"], found["bowler_wickets"]) == (wickets, credited)
    assert tables.dismissals.num_rows == 1


def test_all_run_four_is_no_boundary(tmp_path: Path):
    run = delivery(4)
    run["runs"]["non_boundary"] = True
    assert sums(read(tmp_path, match([run, delivery(4)])))["four"] == 1
