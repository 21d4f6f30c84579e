"""Titles of frames: the finding that leads its chart."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.league import brief, league, scored

BEAT = "  - {id: a, kind: before_after, measure: run_rate, by: phase}"


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The powerplay up by half, the middle overs down a little more surely, the whole hardly."""
    made = []
    for year in (2019, 2020):
        for day in range(1, 11):
            early, late = (60, 121) if year == 2019 else (90, 90)
            found = scored(year, early + 5 * (day % 4), 60, day)
            balls = scored(year, late + day % 2, 60)["innings"][0]["overs"][0]
            found["innings"][0]["overs"].append({**balls, "over": 20})
            made.append(found)
    return league(tmp_path_factory.mktemp("titles") / "league", made)


@pytest.mark.parametrize(
    ("headlines", "words"),
    [
        ("[]", "The run rate in the middle overs fell"),
        ("[a.run_rate.powerplay]", "The run rate in the powerplay rose"),
        ("[a]", "The run rate held"),
    ],
)
def test_a_frame_is_led_by_its_headline_or_by_what_changed_most_surely(project, headlines, words):
    made = brief(project, BEAT, headlines=headlines)
    assert made.charts[0].title.startswith(words)
