"""What the words stage says is found supported, in every form; moved or turned round it is not."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from pipeline.brief.facts import facts_of
from pipeline.brief.spoken import episode_of
from pipeline.contracts.episode import Episode
from pipeline.contracts.script_check import NumberChecked, SentenceChecked
from pipeline.said.check import Sentence, checked
from pipeline.said.read_numbers import Said, read
from pipeline.said.rounding import rounds
from pipeline.said.tokens import tokens_of
from pipeline.said.topic_known import Known, known_of
from pipeline.said.units import unit_after
from pipeline.transcripts.sentence_ends import sentence_spans
from pipeline.wording import numbers
from tests.any_topics import any_league
from tests.told import Told, any_told, demo_told
from tests.voices import MOST, turned

DEMO = ("long-grass", "sea-air", "who-paid")
TOPICS = range(1000, 1050)
FINE = ("supported", "not a statistic")
BEFORE = 8  # sentences that are read again with one that is changed
FACTORS = (1.37, 0.71, 1.83, 2.6, 0.43, 3.4, 5.3)
OTHER_WAY = {
    **{"up": "down", "down": "up", "rose": "fell", "fell": "rose", "fewer": "more"},
    **{"more": "fewer", "lower": "higher", "higher": "lower", "rise": "fall", "fall": "rise"},
}
# Words of direction that are said of a number: after its unit, or before 'by', 'from', 'to'.
_AFTER = ("cent", "point", "points", "over", "run", "runs", "balls", "boundary", "season")
OF_A_NUMBER = re.compile(
    "|".join(rf"(?<={word} )(?:up|down|lower|higher|more|fewer)\b(?! than)" for word in _AFTER)
    + r"|\b(?:rose|fell)\b(?= (?:by|from|to)\b)"
    r"|(?<=went )(?:up|down)\b(?=,? (?:from|by|about|just|nearly|to)\b)"
    r"|\b(?:rise|fall)\b(?= is )|(?<=real )(?:rise|fall)\b(?=:)|(?<=step )(?:up|down)\b(?=:)"
)
COUNTED = {"comparisons", "ways", "players", "matches"}


def known(told: Told) -> Known:
    facts = facts_of(told.view, told.findings)
    episode = episode_of("any", told.content.said)
    return known_of(told.view, told.findings, facts, episode=episode)


def spoken(episode: Episode) -> Iterator[Sentence]:
    """All that is said, under the headings of the beats."""
    around = [*episode.cold_open, *episode.answer]
    parts = [("", [line.text for line in around])]
    for beat in episode.beats:
        parts.append((beat.title, [beat.opening, *(line.text for line in beat.lines)]))
    parts.append(("", [line.text for line in episode.close]))
    for heading, lines in parts:
        for line in filter(None, lines):
            yield from (Sentence(line[a:b], heading=heading) for a, b in sentence_spans(line))


def sentences(told: Told) -> list[Sentence]:
    return list(spoken(episode_of("any", told.content.said)))


def wrong(told: Told) -> list[str]:
    """What is held against lines that the findings carry."""
    found = []
    for sentence in checked(sentences(told), known(told)):
        numbers_wrong = [each for each in sentence.numbers if each.result not in FINE]
        found += [f"{sentence.text} [{each.said}: {each.result}]" for each in numbers_wrong]
        found += [f"{sentence.text} [{each.kind}: {each.said}]" for each in sentence.claims]
    return found


@pytest.mark.parametrize("by", range(MOST))
@pytest.mark.parametrize("topic", DEMO)
def test_what_the_demo_says_is_supported_in_every_form(built: Path, topic: str, by: int):
    with turned(by):
        assert wrong(demo_told(built, topic)) == []


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> list[Told]:
    league = any_league(tmp_path_factory.mktemp("said") / "league")
    return [told for seed in TOPICS if (told := any_told(league, seed))]


def test_what_random_topics_say_is_supported(drawn: list[Told]):
    assert len(drawn) > len(TOPICS) / 3
    assert [each for told in drawn for each in wrong(told)] == []


def said_instead(said: Sequence[Sentence], at: int, text: str, topic: Known) -> SentenceChecked:
    """The sentence at a place with other words, after those that stand before it."""
    first = max(0, at - BEFORE)
    other = said[at]._replace(text=text)
    return checked([*said[first:at], other, *said[at + 1 : at + 2]], topic)[at - first]


def of_words(number: NumberChecked) -> tuple[Said, int]:
    """The number and how long its words are, without the unit."""
    tokens = tokens_of(number.said)
    said = read(tokens)[0]
    return said, tokens[said.last - 1].ends


def moved(said: Said, unit: str, topic: Known) -> str | None:
    """Another number in words, that is a rounding of nothing which is counted so."""
    every = topic.targets_in(unit) if unit else topic.targets
    values = [end for each in every for end in (each.value, each.low, each.high) if end is not None]
    for factor in FACTORS:
        decimals = 1 if said.value * factor < 20 and unit not in COUNTED else 0
        value = round(said.value * factor, decimals)
        other = Said(0, 1, value, 10.0**-decimals)
        if value and not any(rounds(other, each, 0) == "right" for each in values):
            return numbers.said(value, decimals)
    return None


@pytest.mark.parametrize("topic", DEMO)
def test_a_number_that_is_moved_is_flagged(built: Path, topic: str):
    told = demo_told(built, topic)
    lines, facts = sentences(told), known(told)
    tried = 0
    for at, sentence in enumerate(checked(lines, facts)):
        for number in sentence.numbers:
            said, length = of_words(number)
            unit = unit_after(tokens_of(number.said), said.last)
            if number.result != "supported" or said.form != "number":
                continue
            words = moved(said, unit.name if unit else "", facts)
            if words is None:
                continue
            end = number.begins + length
            text = sentence.text[: number.begins] + words + sentence.text[end:]
            found = said_instead(lines, at, text, facts).numbers
            here = [each for each in found if each.begins == number.begins]
            tried += 1
            assert here and here[0].result not in FINE, text
    assert tried > 10


@pytest.mark.parametrize("by", range(MOST))
@pytest.mark.parametrize("topic", DEMO)
def test_a_number_that_goes_the_other_way_is_flagged(built: Path, topic: str, by: int):
    with turned(by):
        told = demo_told(built, topic)
        lines, facts = sentences(told), known(told)
        for at, sentence in enumerate(checked(lines, facts)):
            if not any(each.result == "supported" for each in sentence.numbers):
                continue
            for match in OF_A_NUMBER.finditer(sentence.text):
                other = OTHER_WAY[match[0]]
                text = sentence.text[: match.start()] + other + sentence.text[match.end() :]
                found = said_instead(lines, at, text, facts).numbers
                assert any(each.result not in FINE for each in found), text
