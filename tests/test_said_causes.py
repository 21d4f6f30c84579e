"""Which sentences say that the event made a change, and what is said of it instead."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.contracts.script_check import ClaimChecked
from pipeline.said.check import Sentence, checked
from pipeline.transcripts.sentence_ends import sentence_spans
from tests.script_scores import known_by

STEP, UNTOLD = "There is a step at the date.", "The data can’t say what made it."
SPIN = "Spin’s economy in the middle overs"


def causes(built: Path, *texts: str, topic: str = "long-grass") -> list[ClaimChecked]:
    """Of the last sentence."""
    found = checked([Sentence(text) for text in texts], known_by(str(built), topic))
    return [claim for claim in found[-1].claims if claim.kind == "cause"]


@pytest.mark.parametrize(
    "text",
    [
        "Thanks to Anna for the charts.",
        "Thanks to Anna for the chart of spin’s fall.",
        "Because of rain, eight targets were reduced.",
        "The final was due to start at noon.",
        "The Tidewater Shield gave us 560 matches.",
        "The Shield changed its rules in 2017.",
        "We looked at 2017 because that’s when the long grass came in.",
        "The long grass kept growing.",
        "In 2017 the Tidewater Shield let its outfields grow.",
        "Did the long grass cut the fours?",
        "The long grass did not cut the fours.",
    ],
)
def test_what_makes_no_change_is_no_cause(built: Path, text: str):
    assert causes(built, text) == []


@pytest.mark.parametrize(
    "text",
    [
        "It was the long grass that did it.",
        "Not only did the long grass cut fours, it cut sixes.",
        "Without doubt the long grass cut the fours.",
        "No question, the long grass rescued the spinners.",
        f"{SPIN} fell as a result.",
        "Because of the long grass, scoring fell.",
        "The quicks are cheaper because of the breeze.",
    ],
)
def test_an_event_that_makes_a_change_is_a_cause(built: Path, text: str):
    assert len(causes(built, text)) == 1


def test_a_change_that_was_told_is_explained(built: Path):
    (claim,) = causes(built, f"{SPIN} fell.", "That explains the fall.")
    assert claim.said == "That explains the fall"
    assert causes(built, f"{SPIN} fell.", "That explains the title.") == []


def test_a_step_is_offered_only_where_the_second_verdict_has_one(built: Path):
    (claim,) = causes(built, f"{SPIN} fell because of the long grass.")
    assert claim.instead == STEP
    (claim,) = causes(built, "Pace at the death rose because of the long grass.")
    assert claim.instead == UNTOLD
    (claim,) = causes(built, "Pace is cheaper because of the sea air.", topic="sea-air")
    assert claim.instead == UNTOLD


@pytest.mark.parametrize(
    ("asked", "answer", "count"),
    [
        ("What made spin cheaper in the middle overs?", "The long grass, plain and simple.", 1),
        ("Did the long grass make spin cheaper?", "It did.", 1),
        ("Did the long grass make spin cheaper?", "We can’t say.", 0),
        ("What made spin cheaper in the middle overs?", "Nobody knows.", 0),
        ("Where do we begin?", "The long grass, of course.", 0),
    ],
)
def test_an_answer_says_what_was_asked(built: Path, asked: str, answer: str, count: int):
    assert len(causes(built, asked, answer)) == count


def test_a_question_without_its_sign_claims_nothing(built: Path):
    assert causes(built, "did the long grass cut the fours") == []
    assert len(causes(built, "the long grass cut the fours")) == 1


def test_a_doubt_is_of_its_own_clause(built: Path):
    assert len(causes(built, "We can’t say by how much, but the long grass cut the fours.")) == 1
    assert causes(built, "The long grass cut the fours, but we can’t prove it.") == []


def test_what_others_say_is_no_claim(built: Path):
    assert causes(built, "My uncle reckons the long grass cut the fours.") == []
    assert causes(built, "The story that the long grass cut the fours won’t go away.") == []
    assert len(causes(built, "Caption: “The long grass cut the fours.”")) == 1


def test_a_sentence_ends_behind_a_word_that_is_cut_short():
    text = "Perhaps they don’t. The long grass cut the fours."
    assert [text[a:b] for a, b in sentence_spans(text)] == [
        "Perhaps they don’t.",
        "The long grass cut the fours.",
    ]
