"""How easy the lines to say are to follow by ear: Flesch's reading ease, and the school grade."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import textstat_rs

from pipeline.wording import numbers
from pipeline.wording.script import spelled

GOAL = 8.0  # the school grade of a reader who should follow
MOST_NAMED = 3  # beats above the goal, the hardest first
FORM = "en_GB"  # the language of the lines
READ_APART = str.maketrans({"-": " ", "–": " ", "’": "'"})  # 'sixty-four' is heard as two words


class Ease(NamedTuple):
    """100 is very easy, 60 plain, 30 hard; the grade is that of Flesch and Kincaid."""

    score: float
    grade: float

    @property
    def is_hard(self) -> bool:
        """Whether it is above the goal as it is printed."""
        return float(numbers.rounded(self.grade, 1)) > GOAL


def ease_of(lines: Sequence[str]) -> Ease | None:
    """Of lines as they are read, figures spelled out; none where nothing is said."""
    text = " ".join(spelled(line) for line in lines).translate(READ_APART)
    if not any(sign.isalpha() for sign in text):
        return None
    return Ease(
        textstat_rs.flesch_reading_ease(text, lang=FORM),
        textstat_rs.flesch_kincaid_grade(text, lang=FORM),
    )


def ease_said(beats: Sequence[tuple[str, Sequence[str]]]) -> str:
    """One line on all lines to say, and on the hardest beats; '' where nothing is said.

    `beats` are headings and their lines.
    """
    whole = ease_of([line for _, lines in beats for line in lines])
    if whole is None:
        return ""
    goal = numbers.shown(GOAL, 0)
    score = numbers.shown(whole.score, 0)
    said = (
        f"Reading ease of the lines to say: {score} of 100, school grade {_grade(whole)} "
        f"(Flesch and Kincaid; the goal is {goal})."
    )
    hard = _hard(beats)
    if not hard:
        return said
    named = "; ".join(f"“{title}” {_grade(ease)}" for title, ease in hard[:MOST_NAMED])
    more = len(hard) - MOST_NAMED
    return f"{said} Above it: {named}{f'; and {more} more' if more > 0 else ''}."


def _hard(beats: Sequence[tuple[str, Sequence[str]]]) -> list[tuple[str, Ease]]:
    """The beats above the goal, the hardest first."""
    eases = [(title, ease) for title, lines in beats if (ease := ease_of(lines)) and ease.is_hard]
    return sorted(eases, key=lambda one: -one[1].grade)


def _grade(ease: Ease) -> str:
    return numbers.shown(max(ease.grade, 0.0), 1)
