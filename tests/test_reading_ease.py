"""How easy lines are by ear, and what is said of it."""

from __future__ import annotations

import re

from pipeline.brief.reading_ease import GOAL, ease_of, ease_said

EASY = ["The spinners went for six an over then, and they go for five an over now."]
HARD = [
    "Notwithstanding considerable heterogeneity, statistically indistinguishable differences "
    "characterise innumerable contemporaneous observations throughout."
]


def test_plain_lines_are_easier_than_learned_ones():
    easy, hard = ease_of(EASY), ease_of(HARD)
    assert easy and hard and easy.score > 80 > 0 > hard.score
    assert easy.grade < GOAL < hard.grade and hard.is_hard and not easy.is_hard


def test_it_is_flesch_s_measure_by_hand():
    """Nine words of one syllable in a sentence: 206.835 - 1.015 x 9 - 84.6 x 1."""
    found = ease_of(["The ball went past the bat, hit the stumps."])
    assert found and abs(found.score - (206.835 - 1.015 * 9 - 84.6)) < 0.01
    assert abs(found.grade - (0.39 * 9 + 11.8 - 15.59)) < 0.01


def test_figures_are_read_out_and_compounds_are_two_words():
    assert ease_of(["It was 4.5 then, and 64 now, or so."]) == ease_of(
        ["It was four point five then, and sixty-four now, or so."]
    )
    assert ease_of(["It was sixty-four, or so they say."]) == ease_of(
        ["It was sixty four, or so they say."]
    )
    assert ease_of(["We can’t say that it fell."]) == ease_of(["We can't say that it fell."])


def test_nothing_said_has_no_score():
    assert ease_of([]) is None and ease_of(["", "–"]) is None
    assert ease_said([]) == "" == ease_said([("A beat", [])])


def test_the_hardest_beats_are_named_where_they_are_above_the_goal():
    assert re.fullmatch(
        r"Reading ease of the lines to say: \d+ of 100, school grade \d+\.\d \(Flesch and Kincaid; "
        r"the goal is 8\)\.",
        ease_said([("Easy", EASY), ("Nothing", [])]),
    )
    harder = [HARD[0].replace(" throughout", " internationally throughout")]
    many = [("Easy", EASY), ("Hard", HARD), ("Harder", harder), ("C", HARD), ("D", HARD)]
    named = ease_said(many).partition("Above it: ")[2]
    assert named.startswith("“Harder” ") and "“Hard” " in named and "Easy" not in named
    assert named.endswith("; and 1 more.")
