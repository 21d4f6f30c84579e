"""A file with more numbers than anybody says is judged so far and told where that ends."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from pipeline.said import in_sentence
from pipeline.said.check import STOPPED, Sentence, checked
from pipeline.said.whole_sentence import all_judged
from pipeline.script import judged
from pipeline.script.judged import LONG_AGO, judge_of
from pipeline.transcripts.passage import Passage
from tests.script_scores import known_by


def test_after_the_most_numbers_one_place_says_that_the_rest_is_not_judged(built: Path):
    known = known_by(str(built), "long-grass")
    told = [Sentence(text) for text in ("It was nine, then ten.", "Six of them rose.", "Four.", "")]
    first, second, *others = checked(told, known, 2)
    assert len(first.numbers) == 2 and not any(STOPPED in one.why for one in first.numbers)
    (mark,) = second.numbers
    assert (mark.said, mark.result, mark.risk) == ("Six of them rose.", "for a person", 1)
    assert mark.why.startswith(STOPPED)
    assert [one.text for one in others] == ["Four.", ""]
    assert not any(one.numbers or one.claims for one in others)
    whole = checked(told, known)
    assert [len(one.numbers) for one in whole] == [2, 1, 1, 0]
    assert checked(told, known, 4)[:3] == whole[:3]


def test_of_captions_with_silences_one_place_says_so_too(
    built: Path, monkeypatch: pytest.MonkeyPatch
):
    known = known_by(str(built), "long-grass")
    monkeypatch.setattr(judged, "known_of", lambda *_: known)
    monkeypatch.setattr(judged, "MOST", 3)
    texts = ["It was nine, then ten.", "Six of them rose.", "Four.", "Five."]
    said = [Passage(text, start=at * 2 * LONG_AGO) for at, text in enumerate(texts)]
    found = judge_of(known.view, None, [], None)(said)
    assert [one.text for one in found] == texts
    assert [len(one.numbers) for one in found] == [2, 1, 1, 0]
    assert [one.numbers[0].why.startswith(STOPPED) for one in found[1:3]] == [False, True]


def test_a_sentence_that_comes_again_is_judged_once_and_the_same(
    built: Path, monkeypatch: pytest.MonkeyPatch
):
    known, asked = known_by(str(built), "long-grass"), list[int]()
    fresh = replace(known, also=[])
    monkeypatch.setattr(
        in_sentence, "all_judged", lambda *told: asked.append(1) or all_judged(*told)
    )
    texts = [
        "Spin's economy in the middle overs fell to 4.1 an over.",
        "Nine.",
        "It was 4.5 before.",
    ]
    told = [Sentence(text) for text in texts * 40]
    found = checked(told, fresh)
    assert len(asked) <= 3 * len(texts)
    again = [checked(told[: at + 1], replace(known, also=[]))[-1] for at in range(2 * len(texts))]
    assert found[: len(again)] == again
    assert found[-len(texts) :] == found[len(texts) : 2 * len(texts)]


def test_what_was_named_before_is_part_of_what_is_known_again(built: Path):
    known = replace(known_by(str(built), "long-grass"), also=[])
    spin = ["Spin's economy in the middle overs fell.", "It came to 4.1 an over."]
    death = ["Spin's economy at the death rose.", "It came to 4.1 an over."]
    told = [checked([Sentence(text) for text in texts], known)[1] for texts in (spin, death)]
    assert [one.numbers[0].result for one in told] == ["supported", "contradicted"]
