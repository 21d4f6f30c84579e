"""Streaks in SQL, against the same counted in Python, on innings as untidy as they come."""

from __future__ import annotations

import itertools
from fractions import Fraction
from math import comb
from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa
import pyarrow.parquet as pq
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pipeline.config.cuts import CUTS
from pipeline.config.kinds.streaks import OUTCOMES, outcome_sql, streaks_from
from pipeline.config.sums import MILLIONTHS
from pipeline.sql import quoted

CAME = {
    "dots": lambda ball: ball["legal"] and ball["runs_total"] == 0,
    "boundaries": lambda ball: ball["four"] or ball["six"],
    "sixes": lambda ball: ball["six"],
}
# Filters as conditions, and what they mean.
FILTERS = {
    "all": ([], lambda ball: True),
    "spin": (["d.bowler_kind IN ('spin')"], lambda ball: ball["bowler_kind"] == "spin"),
    "known": (["d.bowler_kind <> 'unknown'"], lambda ball: ball["bowler_kind"] != "unknown"),
    "overs 2 and 3": (["d.over BETWEEN 2 AND 3"], lambda ball: 2 <= ball["over"] <= 3),
    "place known": (
        ["d.batting_position <= 7"],
        lambda ball: (ball["batting_position"] or 99) <= 7,
    ),
    "one ground, second innings": (
        ["m.ground = 'Bell''s Field'", f"{CUTS['innings'].sql} = '2'"],
        lambda ball: ball["match_id"] == "a" and ball["innings"] == 2,
    ),
}
ONE = "''"  # phase: all overs are one
HALVES = "CASE WHEN d.over <= 2 THEN 'early' ELSE 'late' END"
GROUNDS = {"a": "Bell's Field", "b": "Saltmarsh", "c": "Saltmarsh"}
COLUMNS = pa.schema(
    [
        *[(name, pa.string()) for name in ("match_id", "bowler_kind")],
        *[(name, pa.int16()) for name in ("innings", "over", "delivery", "batting_position")],
        *[(name, pa.int16()) for name in ("runs_batter", "runs_total", "wides", "noballs")],
        *[(name, pa.bool_()) for name in ("delivered", "legal", "four", "six")],
    ]
)
# How a delivery can end: (runs off the bat, wides, no-balls, byes, penalty, delivered).
ENDS = [
    *[(0, 0, 0, 0, 0, True)] * 6,
    *[(runs, 0, 0, 0, 0, True) for runs in (1, 4, 4, 6, 6)],
    *((0, 1, 0, 0, 0, True), (4, 0, 1, 0, 0, True), (0, 0, 1, 0, 0, True), (0, 0, 0, 2, 0, True)),
    *((0, 0, 0, 0, 5, True), (0, 0, 0, 0, 0, False)),
]


@st.composite
def balls(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Deliveries of up to three matches in no order; overs of one to eleven, some never bowled."""
    found = []
    for match_id, innings in draw(
        st.lists(
            st.tuples(st.sampled_from("abc"), st.integers(1, 4)),
            min_size=1,
            max_size=4,
            unique=True,
        )
    ):
        for over in range(1, draw(st.integers(1, 4)) + 1):
            kind = draw(st.sampled_from(["pace", "spin", "unknown"]))
            for delivery in range(1, draw(st.integers(1, 11)) + 1):
                ball = {"match_id": match_id, "innings": innings, "over": over, "bowler_kind": kind}
                place = draw(st.sampled_from([None, 1, 7, 11]))
                end = draw(st.sampled_from(ENDS))
                found.append(ended(ball, end) | {"delivery": delivery, "batting_position": place})
    return draw(st.permutations(found))


def ended(ball: dict[str, Any], end: tuple) -> dict[str, Any]:
    bat, wides, noballs, byes, penalty, delivered = end
    return {
        **ball,
        **{"runs_batter": bat, "wides": wides, "noballs": noballs, "delivered": delivered},
        **{"legal": delivered and not wides and not noballs, "four": bat == 4, "six": bat == 6},
        "runs_total": bat + wides + noballs + byes + penalty,
    }


def put(folder: Path, rows: list[dict[str, Any]]) -> dict[str, str]:
    """The rows and their matches as tables; the paths by name."""
    matches = [{"match_id": match_id, "ground": ground} for match_id, ground in GROUNDS.items()]
    made = {
        "deliveries": pa.Table.from_pylist(rows, COLUMNS),
        "matches": pa.Table.from_pylist(matches),
    }
    for name, table in made.items():
        pq.write_table(table, folder / f"{name}.parquet")
    return {name: str(folder / f"{name}.parquet") for name in made}


def asked(query: str) -> list[dict[str, Any]]:
    rows = duckdb.sql(query)
    return [dict(zip(rows.columns, row, strict=True)) for row in rows.fetchall()]


def place(ball: dict[str, Any]) -> tuple:
    return ball["match_id"], ball["innings"], ball["over"], ball["delivery"]


def by_hand(
    rows: list[dict[str, Any]], of: str, chosen, length: int, stretch=lambda ball: place(ball)[:2]
) -> dict[tuple, tuple]:
    """(streaks, expected) of every innings, or every stretch of one, a ball at a time."""
    kept = sorted((row for row in rows if row["delivered"] and chosen(row)), key=place)
    found = {}
    for key, group in itertools.groupby(kept, stretch):
        came = [bool(CAME[of](ball)) for ball in group]
        n, k = len(came), sum(came)
        runs = [len(list(run)) for success, run in itertools.groupby(came) if success]
        expected = (
            Fraction((n - k + 1) * comb(n - length, k - length), comb(n, k)) if k >= length else 0
        )
        found[key] = (sum(run >= length for run in runs), expected)
    return found


@settings(
    max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None
)
@given(rows=balls(), of=st.sampled_from(sorted(OUTCOMES)), length=st.integers(1, 7))
@pytest.mark.parametrize("name", FILTERS)
def test_every_innings_as_counted_by_hand(
    tmp_path: Path, name: str, rows: list[dict[str, Any]], of: str, length: int
):
    conditions, chosen = FILTERS[name]
    streaks = streaks_from(put(tmp_path, rows), outcome_sql(of), conditions, length, ONE)
    found = asked(
        "SELECT match_id, innings, sum(streak) AS came, sum(streak_expected) AS expected, "
        f"count_if(streak_expected > 0) AS places FROM {streaks} d GROUP BY ALL"
    )
    expected = by_hand(rows, of, chosen, length)
    assert {(row["match_id"], row["innings"]) for row in found} == set(expected)
    for row in found:
        came, mean = expected[row["match_id"], row["innings"]]
        assert row["came"] == came
        assert abs(row["expected"] - mean * MILLIONTHS) <= 0.5 + 1e-6
        assert row["places"] <= 1


@settings(
    max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None
)
@given(rows=balls(), of=st.sampled_from(sorted(OUTCOMES)), length=st.integers(2, 4))
def test_runs_that_are_held_against_their_rate_end_with_their_phase(
    tmp_path: Path, rows: list[dict[str, Any]], of: str, length: int
):
    streaks = streaks_from(put(tmp_path, rows), outcome_sql(of), [], length, HALVES)
    found = asked(
        f"SELECT match_id, innings, {HALVES} AS phase, sum(streak_in_phase) AS came, "
        f"sum(streak_expected) AS expected FROM {streaks} d GROUP BY ALL"
    )
    expected = by_hand(rows, of, lambda ball: True, length, by_half)
    assert {(row["match_id"], row["innings"], row["phase"]) for row in found} == set(expected)
    for row in found:
        came, mean = expected[row["match_id"], row["innings"], row["phase"]]
        assert row["came"] == came
        assert abs(row["expected"] - mean * MILLIONTHS) <= 0.5 + 1e-6


def by_half(ball: dict[str, Any]) -> tuple:
    return *place(ball)[:2], "early" if ball["over"] <= 2 else "late"


def over_of(marks: str, **more: Any) -> list[dict[str, Any]]:
    """An innings in one over: . dot, 1 4 6 runs, w wide, n no-ball for four, x never bowled."""
    ends = {
        **{".": (0, 0, 0, 0, 0, True), "w": (0, 1, 0, 0, 0, True), "n": (4, 0, 1, 0, 0, True)},
        "x": (0, 0, 0, 0, 0, False),
        **{runs: (int(runs), 0, 0, 0, 0, True) for runs in "146"},
    }
    ball = {"match_id": "a", "innings": 1, "over": 1, "bowler_kind": "pace", "batting_position": 1}
    return [ended(ball, ends[mark]) | {"delivery": i} | more for i, mark in enumerate(marks, 1)]


@pytest.mark.parametrize(
    ("marks", "of", "length", "at"),
    [
        ("......", "dots", 6, [6]),
        ("............", "dots", 6, [6]),  # twelve are one run, told at the sixth
        (".....", "dots", 6, []),
        ("...w...", "dots", 6, []),  # a wide breaks it
        ("...n...", "dots", 3, [3, 7]),
        ("...x...", "dots", 6, [7]),  # a wicket before the ball was bowled breaks nothing
        ("1...", "dots", 3, [4]),
        ("46w6", "boundaries", 2, [2]),
        ("4n.6", "boundaries", 2, [2]),  # off a no-ball it is a boundary still
        ("6646", "sixes", 2, [2]),
    ],
)
def test_where_a_streak_is_told(tmp_path: Path, marks: str, of: str, length: int, at: list[int]):
    streaks = streaks_from(put(tmp_path, over_of(marks)), outcome_sql(of), [], length, ONE)
    rows = asked(f"SELECT delivery, streak FROM {streaks} d ORDER BY delivery")
    assert [row["delivery"] for row in rows if row["streak"]] == at
    assert {row["streak"] for row in rows} <= {0, 1}
    assert [row["delivery"] for row in rows] == [i for i, m in enumerate(marks, 1) if m != "x"]


def test_the_expected_number_stands_at_the_last_ball(tmp_path: Path):
    """Three dots among five deliveries: two in a row or more 3 * (3/5)(2/4) = 0.9 times."""
    streaks = streaks_from(put(tmp_path, over_of(".4.w.")), outcome_sql("dots"), [], 2, ONE)
    rows = asked(f"SELECT streak_expected FROM {streaks} d ORDER BY delivery")
    assert [row["streak_expected"] for row in rows] == [0, 0, 0, 0, 900_000]


def test_balls_that_are_not_asked_about_break_nothing(tmp_path: Path):
    """Spin's dots run on from over to over, past a four off the quicks between."""
    spin = {"bowler_kind": "spin"}
    rows = [*over_of("1...", **spin), *over_of("4.", over=2), *over_of("...1", over=3, **spin)]
    tables = put(tmp_path, rows)
    count = "SELECT sum(streak) AS came FROM {} d"
    spinners = streaks_from(tables, outcome_sql("dots"), ["d.bowler_kind = 'spin'"], 6, ONE)
    assert asked(count.format(spinners)) == [{"came": 1}]
    assert asked(count.format(streaks_from(tables, outcome_sql("dots"), [], 6, ONE))) == [
        {"came": 0}
    ]


def test_a_run_does_not_go_on_into_another_innings(tmp_path: Path):
    rows = [*over_of("..."), *over_of("...", innings=2), *over_of("...", match_id="b")]
    streaks = streaks_from(put(tmp_path, rows), outcome_sql("dots"), [], 4, ONE)
    assert asked(f"SELECT sum(streak) AS came, sum(streak_expected) AS x FROM {streaks} d") == [
        {"came": 0, "x": 0}
    ]


def test_it_stands_in_for_the_deliveries(tmp_path: Path):
    """Their columns and three more, whole numbers; a query joins matches and divides as usual."""
    tables = put(tmp_path, [*over_of("..1..w"), *over_of("6....", match_id="b", innings=2)])
    conditions = ["m.ground IN ('Bell''s Field', 'Saltmarsh')"]
    streaks = streaks_from(tables, outcome_sql("dots"), conditions, 2, ONE)
    deliveries = duckdb.sql(f"SELECT * FROM {quoted(tables['deliveries'])}")
    found = duckdb.sql(f"SELECT * FROM {streaks} d")
    assert found.columns == [*deliveries.columns, "streak", "streak_in_phase", "streak_expected"]
    assert [str(kind) for kind in found.types[-3:]] == ["INTEGER", "INTEGER", "BIGINT"]
    rows = asked(
        "SELECT m.ground, sum(d.streak) AS y, count_if(d.legal) AS balls "
        f"FROM {streaks} d JOIN {quoted(tables['matches'])} m USING (match_id) "
        f"WHERE {conditions[0]} GROUP BY GROUPING SETS ((m.ground), ()) ORDER BY y, balls"
    )
    assert rows == [
        {"ground": "Saltmarsh", "y": 1, "balls": 5},
        {"ground": "Bell's Field", "y": 2, "balls": 5},
        {"ground": None, "y": 3, "balls": 10},
    ]
