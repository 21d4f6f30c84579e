"""Any deliveries put into an over and taken out of it, against the same done to a list."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import duckdb
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.clean.corrections import Correction
from pipeline.clean.fix_deliveries import fix_deliveries
from pipeline.clean.opened import put
from tests.builders import delivery, match, read

WHO = "batter_id=id-a; non_striker_id=id-b; bowler_id=id-q; runs_batter="
NEW = 7  # runs of the first delivery that is put in; each after it has one more


def database(runs: list[int]) -> duckdb.DuckDBPyConnection:
    """What corrections are applied to, with one over; its last ball takes a wicket."""
    balls = [delivery(run) for run in runs]
    balls[-1]["wickets"] = [{"kind": "bowled", "player_out": "A Batt"}]
    with TemporaryDirectory() as folder:
        tables = read(Path(folder), match(balls))
    db = duckdb.connect()
    names = {"played": "deliveries", "fallen": "dismissals", "kept": "matches"}
    for name, table in {**names, "kept_innings": "innings", "people": "people"}.items():
        put(db, name, getattr(tables, table))
    return db


def line(at: int, number: int, old: str, new: str) -> Correction:
    place = {"match": "m1", "innings": "1", "over": "1", "delivery": str(number)}
    why = ("reason", "source", "by", "2026-11-25")
    return Correction("corrections.csv", at, "delivery", place, "delivery", old, new, *why)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.integers(0, 6), min_size=1, max_size=6),
    st.lists(st.tuples(st.booleans(), st.integers(1, 7)), min_size=1, max_size=6),
)
def test_what_comes_and_goes_is_as_in_a_list(runs: list[int], steps: list[tuple[bool, int]]):
    lines: list[Correction] = []
    before: dict[int, list[int]] = {number: [] for number in range(1, 9)}
    gone: set[int] = set()
    for goes, number in steps:
        if goes and number < len(runs) and number not in gone:
            lines.append(line(len(lines), number, f"{WHO}{runs[number - 1]}", ""))
            gone.add(number)
        elif not goes and number <= len(runs) + 1:
            before[number].append(NEW + len(lines))
            lines.append(line(len(lines), number, "", f"{WHO}{before[number][-1]}"))
    wanted: list[int] = []
    for number, run in enumerate([*runs, None], start=1):
        wanted += before[number]
        wanted += [run] if run is not None and number not in gone else []
    fixed = fix_deliveries(database(runs), lines)
    made = fixed.deliveries.to_pylist()
    assert [row["runs_batter"] for row in made] == (wanted if lines else [])
    assert [row["delivery"] for row in made] == [n for n, _ in enumerate(made, start=1)]
    assert fixed.mended.num_rows == (len(runs) if lines else 0)
    (last,) = [n for n, row in enumerate(made, start=1) if row["wickets"]] or [None]
    assert [row["delivery"] for row in fixed.dismissals.to_pylist()] == [last] * bool(lines)
