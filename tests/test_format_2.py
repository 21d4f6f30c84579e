"""Findings and a selection of format 2, as 0.10 wrote them of the demo, read today."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from pipeline.contracts.files import read_json
from pipeline.contracts.finding import drift_of
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Selection
from pipeline.contracts.timing import Neither
from pipeline.contracts.upgrades.format_2 import finding_of_format_2
from pipeline.contracts.upgrades.timing import timing_of_seasons
from pipeline.errors import UserError
from tests.conftest import ROOT

OLDER = ROOT / "tests" / "older"
FILE = OLDER / "findings_of_format_2.json"
THEN: dict[str, Any] = json.loads(FILE.read_text("utf-8"))
NOTES = {
    "rival_event": {"names": ["the new ball"]},
    "transition_season": {"season": "2017"},
    "drift_not_testable": {
        **{"because": "few_seasons_before", "seasons_before": 3, "seasons_after": 5}
    },
}


@pytest.fixture(scope="module")
def now() -> Findings:
    return read_json(FILE, Findings)


def test_the_windows_are_the_seasons_of_then_with_their_days_and_matches(now: Findings):
    found = now.windows
    assert found and THEN["windows"]["transition"] is None
    assert found.before.seasons == THEN["windows"]["before"]
    assert found.after.seasons == THEN["windows"]["after"]
    assert (found.before.first, found.after.last) == (date(2012, 4, 14), date(2021, 9, 5))
    assert (found.before.matches, found.after.matches) == (200, 200)
    assert found.neither == Neither(earlier=120, between=0, inside=0, later=40)


def test_the_periods_are_the_seasons(now: Findings):
    assert now.unit == "season"
    assert [one.label for one in now.periods] == [one["label"] for one in THEN["seasons"]]
    assert sum(one.before for one in now.periods) == sum(one.after for one in now.periods) == 200


def test_every_drift_has_its_counts_and_its_slope(now: Findings):
    told = 0
    for finding, written in zip(now.findings, THEN["findings"], strict=True):
        drift, old = drift_of(finding), written.get("drift")
        assert bool(drift) == bool(old)
        if drift is None:
            continue
        told += 1
        assert (drift.periods_before, drift.periods_after) == (
            *(old["seasons_before"], old["seasons_after"]),
        )
        assert (drift.unit, drift.per) == ("season", "season")
        if drift.test:
            assert drift.test.slope.value == old["test"]["per_season"]["value"]
    assert told > 1


def test_every_point_has_its_label(now: Findings):
    for name, points in now.series.items():
        assert [one.label for one in points] == [one["season"] for one in THEN["series"][name]]
        assert not any(one.part for one in points)
    assert now.series


@pytest.mark.parametrize("code", NOTES)
def test_the_notes_that_have_other_fields_now(code: str):
    made = finding_of_format_2({"notes": [{"code": code, **NOTES[code]}], "about": "turn"})
    (note,) = made["notes"]
    wanted = {
        "rival_event": {"rivals": [{"name": "the new ball"}]},
        "transition_season": {"seasons": ["2017"]},
        "drift_not_testable": {
            **{"because": "few_periods_before", "periods_before": 3, "periods_after": 5}
        },
    }
    assert note == {"code": code, **wanted[code]}


def test_a_selection_has_what_is_new_under_the_topics_own_event():
    found = read_json(OLDER / "selection_of_format_2.json", Selection)
    assert found.windows and found.windows.before.matches == 200
    assert set(found.newcomers) == {""} and found.newcomers[""].matches == 200


def test_the_season_of_the_event_and_what_lies_between_are_counted():
    seasons = [
        {"label": str(year), "first": f"{year}-04-01", "last": f"{year}-09-30", "matches": 40}
        for year in range(2010, 2020)
    ]
    windows = {"before": ["2012", "2013"], "after": ["2016"], "transition": "2015"}
    found = timing_of_seasons(seasons, windows)["windows"]
    assert found["neither"] == {"earlier": 80, "between": 40, "inside": 40, "later": 120}
    assert timing_of_seasons(seasons, None)["windows"] is None


def test_a_point_without_its_season_is_refused(tmp_path: Path):
    broken = json.loads(FILE.read_text("utf-8"))
    del next(iter(broken["series"].values()))[0]["season"]
    path = tmp_path / "findings.json"
    path.write_text(json.dumps(broken), "utf-8")
    with pytest.raises(UserError, match="label"):
        read_json(path, Findings)
