"""Findings of format 1, as 0.9.0 wrote them of the demo (some of each kind), read today."""

from __future__ import annotations

import json
from typing import Any

import pytest

from pipeline.contracts.files import FORMAT, read_json
from pipeline.contracts.finding import Finding, control_of, drift_of
from pipeline.contracts.findings import Findings
from pipeline.contracts.upgrades.format_1 import finding_of_format_1
from pipeline.errors import UserError
from pipeline.significance.printed import about, of_log
from tests.conftest import ROOT

FILE = ROOT / "tests" / "older" / "findings_of_format_1.json"


@pytest.fixture(scope="module")
def now() -> list[Finding]:
    return read_json(FILE, Findings).findings


@pytest.fixture(scope="module")
def then() -> list[dict[str, Any]]:
    written: list[dict[str, Any]] = json.loads(FILE.read_text("utf-8"))["findings"]
    return written


def test_every_interval_is_made_again_by_the_errors_it_was_given(now, then):
    """At 95 %, to the ninth digit: of differences, of steps, and of what is beside a control."""
    effects = steps = controls = 0
    for finding, written in zip(now, then, strict=True):
        if effect := finding.effect:
            effects += 1
            made = about(effect.difference.value, effect.se, effect.df_units, effect.level)
            ends = written["effect"]["difference"]
            assert (made.low, made.high) == pytest.approx((ends["low"], ends["high"]), rel=1e-9)
            assert effect.level == 0.95
        if (drift := drift_of(finding)) and (test := drift.test):
            steps += 1
            made = of_log(test.step.value, test.se, test.df, test.level)
            ends = written["drift"]["test"]["step"]
            assert (made.low, made.high) == pytest.approx((ends["low"], ends["high"]), rel=1e-9)
            assert test.slope.value == written["drift"]["test"]["per_season"]
            assert (test.slope.low, test.slope.way) == (None, 0)  # none was written
        if control := control_of(finding):
            controls += 1
            ends = written["control"]["difference"]
            assert control.effect.difference.low == ends["low"]
            assert control.verdict == written["control"]["verdict"]
    assert min(effects, steps, controls) > 0


def test_nothing_that_was_written_is_another_now(now, then):
    for finding, written in zip(now, then, strict=True):
        for name in ("id", "verdict", "because", "p_adjusted", "family_size", "refused"):
            assert getattr(finding, name) == written[name]
        assert (finding.effect is None) is (written["effect"] is None)


def test_a_damaged_file_of_that_format_says_so(tmp_path):
    broken = json.loads(FILE.read_text("utf-8"))
    del broken["findings"][0]["effect"]["df"]
    path = tmp_path / "findings.json"
    path.write_text(json.dumps(broken), "utf-8")
    with pytest.raises(UserError, match="not what an older version wrote: it lacks 'df'"):
        read_json(path, Findings)
    path.write_text(json.dumps({**broken, "format": FORMAT + 1}), "utf-8")
    with pytest.raises(UserError, match=f"this version reads {FORMAT}"):
        read_json(path, Findings)


def test_shares_of_matches_have_newcombe_s_ends_and_all_else_has_t_s(then):
    """They were not marked; only they are counted against as many as there are matches."""
    assert {finding_of_format_1(each)["effect"]["interval"] for each in then if each["effect"]} == {
        "t"
    }
    shares = (each for each in then if each["effect"] and each["kind"] == "share")
    share = next(each for each in shares if each["about"] == "change")
    for matches, interval in ((40, "newcombe"), (39, "t")):
        sides = {side: {**share[side], "denominator": 40, "matches": matches} for side in "ab"}
        assert finding_of_format_1({**share, **sides})["effect"]["interval"] == interval
