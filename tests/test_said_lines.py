"""What the words stage says is found supported, in every form; moved or turned round it is not."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from pipeline.brief.facts import facts_of
from pipeline.brief.spoken import episode_of
from pipeline.contracts.episode import Episode
from pipeline.contracts.script_check import NumberChecked, SentenceChecked
from pipeline.said.check import Sentence, checked
from pipeline.said.splitting import sentences_in
from pipeline.said.topic_known import Known, known_of
from tests.any_topics import any_league
from tests.told import Told, any_told, demo_told
from tests.voices import MOST, turned

DEMO = ("long-grass", "sea-air", "who-paid")
TOPICS = range(1000, 1030)
FACTORS = (1.37, 0.71, 1.83, 2.6, 0.43, 3.4, 5.3)
FINE = ("supported", "not a statistic")


def known(told: Told) -> Known:
    facts = facts_of(told.view, told.findings)
    return known_of(told.view, told.findings, facts, episode=episode_of("any", told.content.said))


def spoken(episode: Episode) -> Iterator[Sentence]:
    """All that is said, under the headings of the beats."""
    around = [*episode.cold_open, *episode.answer]
    parts = [("", [line.text for line in around])]
    for beat in episode.beats:
        parts.append((beat.title, [beat.opening, *(line.text for line in beat.lines)]))
    parts.append(("", [line.text for line in episode.close]))
    for heading, lines in parts:
        for line in filter(None, lines):
            yield from (Sentence(each, heading=heading) for each in sentences_in(line))


def said(told: Told) -> list[SentenceChecked]:
    return checked(spoken(episode_of("any", told.content.said)), known(told))


def wrong(told: Told) -> list[str]:
    found = [
        f"{sentence.text} [{number.said}: {number.result}]"
        for sentence in said(told)
        for number in sentence.numbers
        if number.result not in FINE
    ]
    claims = [
        f"{sentence.text} [{claim.kind}: {claim.said}]"
        for sentence in said(told)
        for claim in sentence.claims
    ]
    return [*found, *claims]


@pytest.mark.parametrize("by", range(MOST))
@pytest.mark.parametrize("topic", DEMO)
def test_what_the_demo_says_is_supported_in_every_form(built: Path, topic: str, by: int):
    with turned(by):
        told = demo_told(built, topic)
        assert wrong(told) == []


def test_what_random_topics_say_is_supported(tmp_path: Path):
    league = any_league(tmp_path / "league")
    drawn = [told for seed in TOPICS if (told := any_told(league, seed))]
    assert len(drawn) > len(TOPICS) / 3
    assert [each for told in drawn for each in wrong(told)] == []


def replaced(sentence: Sentence, begins: int, ends: int, words: str) -> Sentence:
    return sentence._replace(text=sentence.text[:begins] + words + sentence.text[ends:])


def beside(
    sentences: list[Sentence], at: int, other: Sentence, begins: int, topic: Known
) -> list[NumberChecked]:
    """What is found where a number stands in a sentence that is said instead."""
    first = max(0, at - 8)
    told = checked([*sentences[first:at], other, *sentences[at + 1 : at + 2]], topic)
    return [number for number in told[at - first].numbers if number.begins == begins]


def words_of(said_so: str) -> str:
    """The number words alone, with no unit: what another number stands in the place of."""
    (span, *_) = number_spans(said_so)
    return said_so[slice(*span)]


def moved(topic: Known, value: float) -> float | None:
    """A number far from this one that is the value of nothing in the topic."""
    values = [abs(end) for each in topic.targets for end in (each.value, each.low, each.high)
              if end is not None]  # fmt: skip
    for factor in FACTORS:
        other = round(value * factor, 1 if value < 20 else 0)
        if all(abs(other - each) > 0.12 * max(other, each) for each in values):
            return other
    return None
