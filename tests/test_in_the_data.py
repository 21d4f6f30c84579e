"""What a topic asks for against what a tiny table holds: named where it isn't there."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa
import pyarrow.parquet as pq
import pytest

from pipeline.config.topic import Data
from pipeline.errors import UserError
from pipeline.metrics.holdings import touching
from pipeline.metrics.in_the_data import (
    check_filters,
    check_sides,
    chosen_matches,
    nothing_compared,
)
from tests.fact_makers import fix
from tests.view_makers import metrics_view
from tests.word_makers import beat

PLAIN = {
    **{
        "match_type": "domestic one-day",
        "balls_per_over": 6,
        "competition": "Pebble Cup",
        "gender": "female",
    },
    **{"team_type": "club", "source": "pebbles", "venue": "Moor Top", "season": "2020"},
    **{"team_1": "Northmoor", "team_2": "Southfen", "region": "coast"},
}


def matches(folder: Path, *given: dict[str, Any]) -> str:
    """The path of a table of matches, each with what sets it apart."""
    rows = [{"match_id": f"m{at}", **PLAIN, **one} for at, one in enumerate(given, 1)]
    pq.write_table(pa.Table.from_pylist(rows), folder / "matches.parquet")
    return str(folder / "matches.parquet")


def deliveries(folder: Path, *given: tuple[str, str, str, str]) -> str:
    """The path of a table of balls: of a match, by whom, to whom, who was at the other end."""
    names = ("match_id", "bowler_id", "batter_id", "non_striker_id")
    rows = [dict(zip(names, one, strict=True)) | {"batting_team": "Northmoor"} for one in given]
    pq.write_table(pa.Table.from_pylist(rows), folder / "deliveries.parquet")
    return str(folder / "deliveries.parquet")


def chosen(folder: Path, *given: dict[str, Any], **data: Any) -> str:
    view = metrics_view([], data=Data(format="one-day", **data))
    return chosen_matches(duckdb.connect(), view, matches(folder, *given), "data")


def test_filters_that_leave_no_match_name_the_value_that_is_missing(tmp_path: Path):
    """The one that the data have is not blamed, though it stands first."""
    said = "leave no matches: competition 'Gravel Cup' isn't in the data; it has: Pebble Cup"
    with pytest.raises(UserError, match=said) as error:
        chosen(tmp_path, {}, competition=["Pebble Cup", "Gravel Cup"], gender="male")
    assert error.value.problems[0].where == "data.competition[2]"
    with pytest.raises(UserError, match="gender 'male' isn't in the data; it has: female"):
        chosen(tmp_path, {}, competition=["Pebble Cup"], gender="male")
    assert chosen(tmp_path, {}, gender="female").startswith("(SELECT * FROM")


@pytest.mark.parametrize("missing", ["coast", "inland"])
def test_either_group_that_the_data_have_not_is_named(tmp_path: Path, missing: str):
    groups = beat("groups", between={"region": ["inland", "coast"]})
    (there,) = {"inland", "coast"} - {missing}
    held = matches(tmp_path, {"region": there})
    balls = deliveries(tmp_path, ("m1", "q", "a", "b"))
    with pytest.raises(UserError, match=f"region '{missing}' isn't in the data"):
        check_filters(duckdb.connect(), metrics_view([groups]), balls, f"(SELECT * FROM '{held}')")


def test_only_beats_that_divide_by_side_need_one_gender(tmp_path: Path):
    held = f"(SELECT * FROM '{matches(tmp_path, {}, {'gender': 'male'})}')"
    by_kind = beat("before_after", by="bowler_kind")
    check_sides(duckdb.connect(), metrics_view([by_kind]), held)
    for asked in ({"by": "batting_team"}, {"where": {"team": "Northmoor"}}):
        by_side = beat("before_after", **asked).model_copy(update={"id": "sides"})
        with pytest.raises(UserError, match=r"'sides' divides by side.*female and male cricket"):
            check_sides(duckdb.connect(), metrics_view([by_kind, by_side]), held)


def test_a_control_is_held_to_the_data_unless_it_is_of_another_competition(tmp_path: Path):
    balls = deliveries(tmp_path, ("m1", "a", "b", "c"))
    held = f"(SELECT * FROM '{matches(tmp_path, {})}')"
    far = {"name": "far", "where": {"region": "nowhere"}}
    own = beat("before_after", control=far)
    with pytest.raises(UserError, match="region 'nowhere' isn't in the data"):
        check_filters(duckdb.connect(), metrics_view([own]), balls, held)
    other = beat("before_after", control={**far, "competition": "Sand Cup"})
    check_filters(duckdb.connect(), metrics_view([other]), balls, held)


def test_rows_on_no_side_are_told_with_what_must_be_known():
    windows, groups = beat("before_after"), beat("groups", between={"region": ["inland", "coast"]})
    outside, before = (pa.table({"window": [one]}) for one in ("outside", "before"))
    none = pa.table({"window": pa.array([], pa.string())})
    assert nothing_compared(before, windows) == nothing_compared(before, groups) == ""
    assert "no balls in the seasons that are compared;" in nothing_compared(outside, windows)
    assert nothing_compared(outside, groups) == ""
    share = beat("share", of={"bowler_arm": "left"})
    told = nothing_compared(none, share)
    assert told.startswith("its filters leave no balls of known ") and "seasons" not in told


@pytest.mark.parametrize(
    ("place", "touches"),
    [
        ({"match": "m1", "innings": "1"}, True),
        ({"match": "m9"}, False),
        ({"match": "m1", "player": "b"}, True),
        ({"match": "m1", "player": "nobody"}, False),
        ({"match": "m9", "player": "b"}, False),
        ({"venue": "Moor Top"}, True),
    ],
)
def test_a_correction_touches_where_all_that_it_names_is_there(
    tmp_path: Path, place: dict[str, str], touches: bool
):
    held = f"(SELECT * FROM '{matches(tmp_path, {})}')"
    balls = deliveries(tmp_path, ("m1", "q", "a", "b"))
    one = fix(place=place)
    assert touching(duckdb.connect(), [one], balls, held) == [one] * touches
    assert touching(duckdb.connect(), [], balls, held) == []
