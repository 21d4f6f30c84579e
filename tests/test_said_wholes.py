"""Overs as balls a wicket, all ways of asking, bounds, shares in per cent, cautions."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.contracts.script_check import SentenceChecked
from pipeline.said.check import Sentence, checked
from tests.script_scores import known_by

SPIN = "Spin’s economy in the middle overs"
FELL = "The run rate fell"


def said(built: Path, *texts: str) -> list[SentenceChecked]:
    return checked([Sentence(text) for text in texts], known_by(str(built), "long-grass"))


def results(built: Path, *texts: str) -> list[str]:
    return [number.result for number in said(built, *texts)[-1].numbers]


def kinds(built: Path, *texts: str) -> list[str]:
    """Of the claims of the first sentence."""
    return [claim.kind for claim in said(built, *texts)[0].claims]


def test_overs_and_balls_are_what_a_wicket_takes(built: Path):
    assert results(built, "Now a wicket takes seven overs and four balls.") == ["supported"]
    assert results(built, "Now a wicket takes nine overs and four balls.") == ["contradicted"]


def test_all_ways_are_more_than_most_of_them(built: Path):
    assert results(built, f"{SPIN} fell in all thirty-three ways of asking.") == ["contradicted"]
    assert results(built, f"{SPIN} fell.", "All thirty-three ways showed a fall.") == [
        "contradicted"
    ]
    right = f"{SPIN} fell in twenty-four of the thirty-three ways of asking."
    assert results(built, right) == ["supported"] * 2
    assert results(built, "Wickets: all thirty-three ways said the same.") == ["supported"]


@pytest.mark.parametrize(
    ("said", "result"),
    [
        ("more than nine", "rounded too far"),
        ("less than nine", "supported"),
        ("more than eight", "supported"),
        ("over eight and a half", "supported"),
        ("nearly nine", "supported"),
    ],
)
def test_a_bound_is_on_its_side(built: Path, said: str, result: str):
    assert results(built, f"{SPIN} fell by {said} per cent.") == [result]


@pytest.mark.parametrize(
    "text",
    [
        "Spin’s share of the middle overs: a rise of 24 per cent.",
        "Spin’s share of the middle overs saw a 24 per cent rise.",
        "Spin’s share went up 30 per cent.",
        "Spin’s share is up by nearly a quarter.",
    ],
)
def test_a_share_that_moves_in_per_cent_is_not_to_be_said(built: Path, text: str):
    assert kinds(built, text) == ["don't say"] and results(built, text) == ["contradicted"]


def test_a_share_named_before_is_not_to_be_said_so_either(built: Path):
    told = said(built, "Take spin’s share of the middle overs.", "It’s a rise of 24 per cent.")
    assert [claim.kind for claim in told[1].claims] == ["don't say"]
    assert kinds(built, "Spin’s share went up by 8.4 points.") == []


@pytest.mark.parametrize(
    "texts",
    [
        (f"{FELL}.", "We can’t say why."),
        (f"{FELL}.", "It isn’t clear what caused it."),
        (f"{FELL}.", "Maybe you liked this video."),
        (f"Perhaps the weather was nice: {FELL[0].lower()}{FELL[1:]}.",),
    ],
)
def test_a_caution_of_something_else_is_none(built: Path, texts: tuple[str, ...]):
    assert kinds(built, *texts) == ["no caution"]


@pytest.mark.parametrize(
    "texts",
    [
        (f"{FELL}.", "Whether it did, we can’t say."),
        (f"{FELL}.", "Maybe that’s luck."),
        (f"{FELL}: that could be luck.",),
        (f"{FELL}; perhaps.",),
        (f"Perhaps {FELL[0].lower()}{FELL[1:]}.",),
    ],
)
def test_a_caution_of_the_same_holds_it_back(built: Path, texts: tuple[str, ...]):
    assert kinds(built, *texts) == []


def test_a_noun_after_the_number_says_which_way(built: Path):
    assert results(built, f"A nine per cent rise in {SPIN}.") == ["wrong direction"]
    assert results(built, f"A nine per cent fall in {SPIN}.") == ["supported"]
