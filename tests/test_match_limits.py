"""Match files beyond what our tables have room for: that match alone is refused, and told why."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from pipeline.ingest import match_json
from pipeline.ingest.limits import (
    MOST_DELIVERIES,
    MOST_INNINGS,
    MOST_MARKED,
    MOST_PEOPLE,
    MOST_WICKETS,
)
from tests.builders import cleaned as clean_data
from tests.builders import delivery, match, quality_of, read_all, source, write_zip

Tree = dict[str, Any]
GOOD = [delivery(1), delivery(4)]


def refused(tmp_path: Path, found: Tree | str, said: str) -> None:
    path = write_zip(tmp_path / "m.zip", {"m1.json": found, "m2.json": match(GOOD)})
    tables, problems = read_all(source(path))
    (line,) = map(str, problems)
    assert f"{path}/m1.json: " in line and said in line and len(line) < 400
    assert tables.matches["match_id"].to_pylist() == ["m2"]


def innings(found: Tree, count: int, **more: Any) -> Tree:
    found["innings"] = [{**found["innings"][0], **more} for _ in range(count)]
    return found


def largest() -> Tree:
    """A match at every limit."""
    ball = delivery(1)
    wickets = [{"kind": "retired out", "player_out": "A Batt"}] * MOST_WICKETS
    found = innings(match([{**ball, "wickets": wickets}]), MOST_INNINGS)
    balls = [ball] * MOST_DELIVERIES
    people = [{**ball, "batter": f"P{n}"} for n in range(MOST_PEOPLE - 3)]
    found["innings"][0] = {
        "team": "Northmoor",
        "overs": [{"over": 0, "deliveries": balls}, {"over": 999, "deliveries": people}],
        "miscounted_overs": {str(n): {} for n in range(MOST_MARKED)},
        "target": {"runs": 9999, "overs": 999},
        "penalty_runs": {"pre": 999, "post": 999},
    }
    return found


def test_a_match_at_every_limit_is_read_and_cleaned(tmp_path: Path):
    data = clean_data(tmp_path, only={"m1.json": largest()})
    assert quality_of(data)["counts"]["innings"] == MOST_INNINGS


@pytest.mark.parametrize("super_over", [False, True])
def test_more_innings_than_a_match_has(tmp_path: Path, super_over: bool):
    found = innings(match(GOOD), 200, super_over=super_over)
    refused(tmp_path, found, f"200 innings; the most is {MOST_INNINGS}")


def test_more_people_deliveries_wickets_and_marks_than_there_can_be(tmp_path: Path):
    ball = delivery(1)
    people = [{**ball, "batter": f"P{n}"} for n in range(MOST_PEOPLE)]
    refused(tmp_path, match(people), f"more than {MOST_PEOPLE} people in one match")
    balls = [ball] * (MOST_DELIVERIES + 1)
    refused(tmp_path, match(balls), f"innings 1: more than {MOST_DELIVERIES} deliveries in one")
    wicket = {"kind": "retired out", "player_out": "A Batt"}
    crowded = {**ball, "wickets": [wicket] * (MOST_WICKETS + 1)}
    refused(tmp_path, match([crowded]), f"delivery 1: more than {MOST_WICKETS} wickets")
    marks = innings(match(GOOD), 1, miscounted_overs={str(n): {} for n in range(1001)})
    refused(tmp_path, marks, "miscounted_overs: ")
    long = innings(match(GOOD), 1, miscounted_overs={"9" * 5000: {}})
    refused(tmp_path, long, "miscounted_overs: '99999999999999999999' is no over")


HUGE = "9" * 5000
PLACES = [
    *('"balls_per_over": 6', '"overs": 50', '"by": {"runs": 3}', '"season": "2020"'),
    *('"revision": 1', '"created": "2020-01-01"', '"over": 0', '"batter": 1', '"total": 1'),
    '"venue": "Pebble Field"',
]


@pytest.mark.parametrize("number", [HUGE, f"-{HUGE}", "99999999999999999999", "1e999", "-1", "1.5"])
@pytest.mark.parametrize("place", PLACES)
def test_numbers_of_any_size_in_any_place(tmp_path: Path, place: str, number: str):
    """What is refused is named; of what is passed over the number may be anything."""
    text = json.dumps(match(GOOD))
    assert place in text
    key, _, value = place.rpartition(" ")
    changed = text.replace(place, f"{key} {number}{'}' if value.endswith('}') else ''}", 1)
    path = write_zip(tmp_path / "m.zip", {"m1.json": changed, "m2.json": match(GOOD)})
    tables, problems = read_all(source(path))
    assert tables.matches.num_rows + len(problems) == 2
    assert all(f"{path}/m1.json: not " in str(each) for each in problems)
    if "created" not in place:
        assert len(problems) == 1


@pytest.mark.parametrize("overs", [HUGE, "-1", "1e300"])
def test_targets_of_any_size(tmp_path: Path, overs: str):
    text = json.dumps(innings(match(GOOD), 1, target={"runs": 5, "overs": 777}))
    refused(tmp_path, text.replace("777", overs), "not ")


@pytest.mark.parametrize("day", ["0000-01-01", "10000-01-01", "2020-02-30", "-0001-01-01", ""])
def test_dates_that_no_calendar_has(tmp_path: Path, day: str):
    refused(tmp_path, match(GOOD, dates=[day]), "$.info.dates[0]")


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_dates_at_the_ends_of_the_calendar(tmp_path: Path, day: str):
    data = clean_data(tmp_path, only={"m1.json": match(GOOD, dates=[day])})
    assert quality_of(data)["counts"]["matches"] == 1


def test_a_huge_file_is_not_looked_through_for_stray_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """To decode it again without types would take twenty times its size."""
    monkeypatch.setattr(match_json, "LARGEST_WITH_STRAYS", 100)
    found = match([{**delivery(1), "weather": "fair"}])
    refused(tmp_path, found, "unknown field `weather` - at `$.innings[0].overs[0].deliveries[0]`")
