"""The argument of an episode, of the demo and of random topics: judged by findings and topics."""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from pipeline.contracts.finding import Change, Finding, Gap
from pipeline.contracts.findings import Findings
from pipeline.episode.around_beats import PERIODS_BEFORE
from pipeline.episode.choice import MOST
from pipeline.significance.methods.drift import LEAST_BEFORE
from pipeline.voice.forms import voice
from tests.any_topics import any_league
from tests.told import Told, any_told, demo_told

TOPICS = 60
DEMO = ("long-grass", "sea-air", "who-paid")


@pytest.fixture(scope="module")
def episodes(built: Path, tmp_path_factory: pytest.TempPathFactory) -> list[Told]:
    league = any_league(tmp_path_factory.mktemp("episodes") / "league")
    drawn = [any_told(league, seed) for seed in range(1000, 1000 + TOPICS)]
    return [*(demo_told(built, topic) for topic in DEMO), *filter(None, drawn)]


def test_there_are_many_episodes(episodes: list[Told]):
    assert len(episodes) > TOPICS / 3


def test_a_beat_says_three_lines_at_most_of_its_own_findings(episodes: list[Told]):
    for told in episodes:
        for page in told.content.beats:
            assert len(page.lines) <= MOST, page.lines
            own = {each.id for each in told.findings.findings if each.beat == page.id}
            for part in page.parts:
                for line in part.told:
                    assert line.about and set(line.about) <= own, line


def test_every_headline_is_said_in_its_beat(episodes: list[Told]):
    """By a line of its own, or by the one that names what can't be told."""
    for told in episodes:
        said = {
            identity
            for page in told.content.beats
            for part in page.parts
            for line in part.told
            for identity in line.about
        }
        crowded = [page.id for page in told.content.beats if len(page.lines) == MOST]
        for name in told.findings.headlines:
            assert name in said or name.partition(".")[0] in crowded, name


def test_no_beat_has_an_opening_that_the_topic_does_not_bear_out(episodes: list[Told]):
    """Narrower, wider, elsewhere, the same balls: by the filters of both beats alone."""
    seen: Counter[str] = Counter()
    for told in episodes:
        for before, beat in pairwise(told.view.beats):
            opening = next(p.opening for p in told.content.beats if p.id == beat.id)
            if opening is None:
                continue
            kind = _kind_of(opening.sentences[0])
            was, now = before.where.given(), beat.where.given()
            shared = {key: was[key] for key in was.keys() & now.keys()}
            bears = {
                "narrower": now.keys() > was.keys() and shared == was,
                "wider": was.keys() > now.keys() and shared == now,
                "elsewhere": was.keys() == now.keys() and was != now,
                "measure": was == now and before.measures != beat.measures,
                "split": was == now and bool(beat.cuts),
                "next": True,
                "first": False,
            }
            assert bears.get(kind, kind == beat.kind), (kind, opening.text, was, now)
            seen[kind] += 1
    assert len(seen) > 5, seen


def _kind_of(sentence: str) -> str:
    """Which list of the voice a sentence is a form of, whatever fills it."""
    for outcome, forms in voice().of.items():
        for form in forms:
            pattern = "(.+)".join(map(re.escape, re.split(r"\{\w+\}", form)))
            if outcome.startswith("join.") and re.fullmatch(pattern, sentence, re.IGNORECASE):
                return outcome.removeprefix("join.")
    raise AssertionError(f"no opening: {sentence}")


def test_but_is_said_only_where_the_same_number_truly_turns(episodes: list[Told]):
    for told in episodes:
        pages = told.content.beats
        for before, page in pairwise(pages):
            turned = any(
                _turned(one, other)
                for one in _said(before, told.findings)
                for other in _said(page, told.findings)
            )
            but = page.opening is not None and re.search(r"\bBut\b", page.opening.text)
            assert turned or not but, page.opening


def _said(page, findings: Findings) -> list[Finding]:
    about = {name for part in page.parts for line in part.told for name in line.about}
    return [each for each in findings.findings if each.id in about]


def _turned(one: Finding, other: Finding) -> bool:
    """The other direction, or one that held beside one that changed, of one measure."""
    if one.measure != other.measure or not isinstance(one, Change | Gap):
        return False
    if {one.verdict, other.verdict} == {"changed", "held"}:
        return True
    if {one.verdict, other.verdict} != {"changed"}:
        return False
    return _value(one) * _value(other) < 0


def _value(finding: Finding) -> float:
    told = finding.told
    return told.difference.value if finding.kind == "share" else told.change.value


def test_each_beat_has_a_role_and_the_answer_one(episodes: list[Told]):
    for told in episodes:
        roles = [page.role for page in told.content.beats]
        assert all(roles) and roles.count("answers") == bool(told.findings.headlines), roles


def test_an_answer_that_comes_late_is_offered_first(episodes: list[Told]):
    offered = 0
    for told in episodes:
        said, pages = told.content.said, told.content.beats
        if not said.other_order:
            continue
        offered += 1
        first, second = (
            next(page for page in pages if page.id == beat) for beat in said.other_order[:2]
        )
        expected = "what people say" in said.reason
        assert (first.role == "answers") is not expected
        answers = second if expected else first
        assert answers.role == "answers" and answers.position > 2
        if expected:
            says = told.view.expected[0].finding
            assert first.id == next(f.beat for f in told.findings.findings if f.id == says)
        assert sorted(said.other_order) == sorted(page.id for page in pages)
        assert first.title in said.reason
    assert offered


NUMBER = r"(?:nought|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|\w+ty)"
SAID_NUMBER = re.compile(
    rf"\b{NUMBER}(?:[ -](?:{NUMBER}|hundred|thousand|point|and|a half|a third))*"
)


def test_no_sentence_comes_more_than_twice_but_for_names_and_numbers(episodes: list[Told]):
    """With numbers and what it is of taken out, a sentence is its form."""
    for told in episodes:
        said = [
            sentence
            for page in told.content.beats
            for part in page.parts
            for line in part.told
            for sentence in line.sentences
        ]
        forms = Counter(SAID_NUMBER.sub("N", sentence) for sentence in said)
        often = {form: count for form, count in forms.items() if count > 2}
        assert not often, often


def test_a_cold_open_has_one_question_and_at_most_one_number(episodes: list[Told]):
    for told in episodes:
        question, *more = told.content.said.around.cold_open
        assert question.text in (told.content.title, told.content.question) or "?" in question.text
        by_id = {each.id: each for each in told.findings.findings}
        assert len(more) == bool(told.findings.headlines)
        for name in [name for line in more for name in line.about]:
            assert by_id[name].verdict in ("changed", "held") and name in told.findings.headlines


def test_the_periods_that_are_wished_for_are_those_that_a_drift_is_asked_beside():
    assert PERIODS_BEFORE == LEAST_BEFORE
