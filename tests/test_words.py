"""Numbers as shown and said, and sentences that never say more than their finding."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.wording import numbers
from pipeline.wording.answer import expected_found
from pipeline.wording.statement import statement

FORM = {"phases": {"middle": {"label": "overs 11–40", "overs": [11, 40]}}}
FORM["phases"]["middle"]["said"] = "in the middle overs"
BEAT = {"id": "b", "kind": "before_after", "where": {}}
GROUPS = {"id": "g", "kind": "groups", "where": {}, "between": {"region": ["inland", "coast"]}}
ECONOMY = {"label": "economy", "unit": "runs an over", "spoken": "an over", "decimals": 2}
ECONOMY |= {"kind": "rate", "counted": None}


def finding(change: float, half: float, verdict: str, **more) -> dict:
    a, b = 5.0, 5.0 * (1 + change)
    return {
        "values": {"bowler_kind": "spin", "phase": "middle"},
        "about": "change",
        "sides": ["before", "after"],
        "a": {"value": a, "low": a - 0.1, "high": a + 0.1},
        "b": {"value": b, "low": b - 0.1, "high": b + 0.1},
        "difference": 5.0 * change,
        "change": change,
        "change_low": change - half,
        "change_high": change + half,
        "kind": "rate",
        "verdict": verdict,
        "because": "",
        "refused": None,
        "drift": None,
        "control": None,
        "felt": None,
        "notes": [],
        "margin": {"size": 5.0, "unit": "percent"},
        **more,
    }


def test_rounding_is_half_away_from_zero_and_never_minus_nought():
    assert [numbers.shown(v, 1) for v in (0.25, -0.25, -0.04)] == ["0.3", "−0.3", "0.0"]
    assert numbers.shown(2.675, 2) == "2.68" and numbers.shown(1234567, 0) == "1,234,567"


def test_signs_percents_and_points():
    assert numbers.percent(0.0334) == "+3.3%" and numbers.percent(-0.1) == "−10.0%"
    assert numbers.points(1.08) == "+1.1 pts" and numbers.shown(0.0, 1, signed=True) == "0.0"


def test_said_in_british_english():
    assert numbers.said(4.5, 1) == "four point five" and numbers.said(31, 1) == "thirty-one"
    assert numbers.said(1204, 0) == "one thousand two hundred and four"


def test_a_unit_agrees_with_one():
    assert numbers.with_unit("one", "balls a wicket") == "one ball a wicket"
    assert numbers.with_unit("one point two", "runs an over") == "one point two runs an over"
    assert numbers.with_unit("one", "percentage points") == "one percentage point"


@pytest.mark.parametrize(("half", "decimals"), [(3.0, 0), (0.3, 1), (0.04, 2), (12.0, 0)])
def test_no_digit_finer_than_the_interval(half: float, decimals: int):
    assert numbers.bearable(half, 2) == decimals


@pytest.mark.parametrize(
    ("change", "half", "verdict", "expected"),
    [
        (
            0.10,
            0.03,
            "changed",
            "Spin’s economy in the middle overs rose from five an over to five and a half. "
            "That is a real change: between seven and thirteen per cent up.",
        ),
        (
            -0.10,
            0.03,
            "changed",
            "Spin’s economy in the middle overs fell from five an over to four and a half. "
            "That is a real change: between seven and thirteen per cent down.",
        ),
        (
            0.01,
            0.02,
            "held",
            "Spin’s economy in the middle overs is nearly the same: five an over then, five point "
            "one now. If anything changed, it is under five per cent.",
        ),
        (
            0.02,
            0.10,
            "can't tell",
            "Spin’s economy in the middle overs was five an over before, and five point one after. "
            "The data can’t tell that from no change: anything from eight per cent down to twelve "
            "up fits.",
        ),
    ],
)
def test_each_outcome_has_its_sentence(change: float, half: float, verdict: str, expected: str):
    made = statement(finding(change, half, verdict), BEAT, ECONOMY, FORM)
    assert " ".join(made) == expected


def test_groups_name_both_sides():
    values = {"values": {"bowler_kind": "pace"}, "sides": ["inland", "coast"], "about": "groups"}
    made = statement(finding(-0.06, 0.02, "changed", **values), GROUPS, ECONOMY, FORM)
    assert made[0] == (
        "Pace’s economy is five an over at inland grounds, and four point seven at coast grounds."
    )
    assert made[1].startswith("That is a real gap: between four and eight per cent down")


def test_a_refusal_says_no_number():
    refused = finding(0.1, 0.1, "can't tell", refused="few_matches")
    made = " ".join(statement(refused, BEAT, ECONOMY, FORM))
    assert "no number worth saying" in made and not re.search(r"\d per|five", made)


@given(
    change=st.floats(-0.6, 1.5),
    half=st.floats(0.001, 0.8),
    verdict=st.sampled_from(["changed", "held", "can't tell"]),
)
def test_direction_words_agree_with_signs(change: float, half: float, verdict: str):
    made = " ".join(statement(finding(change, half, verdict), BEAT, ECONOMY, FORM))
    assert "  " not in made and "nan" not in made.split()
    assert ("rose" in made) == (verdict == "changed" and change > 0)
    assert ("fell" in made) == (verdict == "changed" and change <= 0)
    assert ("real change" in made) == (verdict == "changed")


@pytest.mark.parametrize(
    ("means", "verdict", "change", "word"),
    [
        ("rises", "changed", 0.1, "Agrees"),
        ("rises", "changed", -0.1, "Disagrees"),
        ("rises", "held", 0.0, "Disagrees"),
        ("holds", "held", 0.0, "Agrees"),
        ("holds", "changed", 0.1, "Disagrees"),
        ("falls", "can't tell", -0.1, "Can’t say"),
    ],
)
def test_expected_against_found(means: str, verdict: str, change: float, word: str):
    assert expected_found(means, finding(change, 0.05, verdict))[0] == word
