"""A file with more numbers than anybody says is judged so far and told where that ends."""

from __future__ import annotations

from pathlib import Path

from pipeline.said.check import STOPPED, Sentence, checked
from tests.script_scores import known_by


def test_after_the_most_numbers_one_place_says_that_the_rest_is_not_judged(built: Path):
    known = known_by(str(built), "long-grass")
    told = [Sentence(text) for text in ("It was nine, then ten.", "Six of them rose.", "Four.", "")]
    first, second, *others = checked(told, known, 2)
    assert len(first.numbers) == 2 and not any(STOPPED in one.why for one in first.numbers)
    (mark,) = second.numbers
    assert (mark.said, mark.result, mark.risk) == ("Six of them rose.", "for a person", 1)
    assert mark.why.startswith(STOPPED)
    assert [(one.text, one.numbers, one.claims) for one in others] == [
        ("Four.", [], []),
        ("", [], []),
    ]
    whole = checked(told, known)
    assert [len(one.numbers) for one in whole] == [2, 1, 1, 0]
    assert checked(told, known, 4)[:3] == whole[:3]
