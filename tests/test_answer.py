"""The answer in one breath, and what people expected against what was found."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.config.kinds import AnyBeat
from pipeline.contracts.finding import Finding, Mix
from pipeline.wording.answer import answer, expected_found, more_matches
from tests.word_makers import (
    BEAT,
    ECONOMY,
    EVENT,
    FORM,
    GAP,
    MIX,
    TURN,
    beside,
    gap_between,
    moved,
    part,
    turn,
)


def told(*found: Finding, of: AnyBeat = BEAT) -> list[Any]:
    return [(each, of, ECONOMY) for each in found]


def test_the_answer_in_one_breath():
    fell = moved(-0.10, 0.03, drift=beside("beyond the drift"))
    held = moved(0.01, 0.02, "held", values={"bowler_kind": "pace"})
    open_one = moved(0.02, 0.1, "can't tell")
    assert answer(told(fell, held, open_one), FORM) == [
        "Spin’s economy in the middle overs fell by about ten per cent.",
        "That is beyond the drift that was there anyway.",
        "Pace’s economy held.",
        "On one headline number the data can’t say.",
    ]


def test_the_answer_for_a_gap_and_a_turn():
    """The date comes last, however it was listed."""
    found = told(turn(), of=TURN) + told(gap_between(0.03, -0.07, -0.10, 0.03), of=GAP)
    assert answer(found, FORM, EVENT) == [
        "Set against pace’s, spin’s economy went down about ten per cent.",
        "Don’t tell the data when the long rope came: asked blind, they put a break in economy "
        "between 2016 and 2017.",
    ]


def test_a_mix_that_held_is_not_told_as_a_number_that_held():
    assert answer(told(part(Mix, 0.01, 0.01, "held"), of=MIX), FORM) == [
        "None of the headline numbers can be told from no change at all."
    ]


def test_nothing_told_says_what_would_settle_it():
    """The smallest change seen shrinks with the root of the matches: twice as fine, four times."""
    open_one = moved(0.025, 0.1, "can't tell")
    assert more_matches(open_one) == pytest.approx(40 * 3, abs=5)
    assert answer(told(open_one), FORM) == [
        "None of the headline numbers can be told from no change at all.",
        "It would take about one hundred more matches on each side to settle the nearest of them.",
    ]
    hopeless = moved(0.0001, 0.1, "can't tell")
    assert len(answer(told(hopeless), FORM)) == 1


def test_without_a_headline_the_answer_says_so():
    assert answer([], FORM) == ["No headline was chosen; each beat says what was found."]


@pytest.mark.parametrize(
    ("means", "verdict", "change", "word"),
    [
        ("rises", "changed", 0.1, "The data agree"),
        ("rises", "changed", -0.1, "The data disagree"),
        ("rises", "held", 0.0, "The data disagree"),
        ("holds", "held", 0.0, "The data agree"),
        ("holds", "changed", 0.1, "The data disagree"),
        ("falls", "can't tell", -0.1, "The data can’t say"),
    ],
)
def test_expected_against_found(means: Any, verdict: str, change: float, word: str):
    assert expected_found(means, moved(change, 0.05, verdict))[0] == word
