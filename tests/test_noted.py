"""What a note is on: which cuts leave balls out, what is counted, what it is divided by."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.config.kinds import KINDS
from pipeline.config.load import load
from pipeline.wording.noted import About, about
from tests.conftest import ROOT

CONFIG = load(ROOT / "config")
ONE_DAY = CONFIG.formats["one-day"]
HALF = {"where": {"overs": "1-20"}}


def on(measure: str = "run_rate", **tree: Any) -> About:
    plain = {"id": "a", "kind": "before_after", "measure": [measure]}
    beat = KINDS[tree.get("kind", "before_after")].model_validate({**plain, **tree})
    return about(beat, CONFIG.measures[measure], ONE_DAY)


@pytest.mark.parametrize(
    ("tree", "unknown"),
    [
        ({}, ()),
        ({"by": "innings"}, ()),
        ({"by": ["bowler_kind", "region"]}, ("bowler_kind", "region")),
        ({"by": "bowler_kind", "where": {"bowler_kind": ["pace", "spin"]}}, ()),
        ({"by": "region", "where": {"region": ["coast", "unknown"]}}, ("region",)),
        ({"by": "phase"}, ()),
        ({"kind": "phases"}, ()),
        ({"kind": "phases", "bands": ["1-10", "11-20"]}, ("band",)),
        ({"kind": "phases", "bands": ["1-10", "11-20"], **HALF}, ()),
        ({"kind": "phases", "bands": ["1-10"], "where": {"phase": "powerplay"}}, ()),
        ({"kind": "phases", "bands": ["1-9"], "where": {"phase": "powerplay"}}, ("band",)),
    ],
)
def test_balls_are_left_out_by_cuts_that_may_not_have_them(tree: dict[str, Any], unknown):
    assert on(**tree).unknown == unknown


def test_a_format_without_a_limit_may_have_overs_that_no_band_has():
    endless = ONE_DAY.model_copy(update={"overs": None})
    beat = KINDS["phases"].model_validate(
        {"id": "a", "kind": "phases", "measure": "run_rate", "bands": ["1-50"]}
    )
    assert about(beat, CONFIG.measures["run_rate"], endless).unknown == ("band",)


@pytest.mark.parametrize(
    ("measure", "tree", "counted", "below"),
    [
        ("run_rate", {}, "balls", "ball"),
        ("run_rate", {"where": {"phase": "death"}}, "overs", "ball"),
        ("run_rate", {"where": {"overs": "1-10"}}, "overs", "ball"),
        ("batting_strike_rate", {"by": "phase"}, "overs", "ball"),
        ("innings_total", {}, "innings", "innings"),
        ("sixes_per_innings", {"where": {"phase": "death"}}, "innings", "innings"),
        ("win_share", {"where": {"innings": "2"}}, "matches", "decided match"),
        ("bowling_average", {}, "balls", ""),
    ],
)
def test_a_number_is_counted_in_what_it_is_divided_by(measure, tree, counted, below):
    found = on(measure, **tree)
    assert (found.counted, found.below, found.measure) == (counted, below, "")


def test_the_measure_is_named_where_the_beat_has_several():
    assert on(measure="run_rate").measure == ""
    beat = KINDS["before_after"].model_validate(
        {"id": "a", "kind": "before_after", "measure": ["run_rate", "economy"]}
    )
    assert about(beat, CONFIG.measures["economy"], ONE_DAY).measure == "economy"
