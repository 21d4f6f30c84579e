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
TOPICS = 40
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
