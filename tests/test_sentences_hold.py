"""No sentence says more than its finding: findings of every kind drawn at random, and heard.

What is heard is taken apart by tests/listening.py and held against the finding's own numbers by
tests/claims.py and tests/verdict_words.py, which share nothing with the modules that speak.
"""

from __future__ import annotations

import re
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.brief.facts import facts_of
from pipeline.brief.top_sheet import expected
from pipeline.config.means import means_of
from pipeline.config.topic import Expectation
from pipeline.contracts.finding import Finding
from pipeline.episode.lines_of import lines_said, sentences_of
from pipeline.wording import challenged, of_kinds
from pipeline.wording.expected import found_of
from tests.answers import answer
from tests.any_findings import MEASURES, Case, asked
from tests.any_kinds import ANY_KIND, any_case, any_gap, any_groups
from tests.brief_makers import brief_view, findings_of
from tests.claim_patterns import wrong
from tests.claims import told
from tests.expectations import may_say, wrong_found
from tests.hearing import all_wrong
from tests.printed_numbers import wrong_prints
from tests.printed_tests import wrong_test
from tests.verdict_words import wrong_in_short, wrong_words
from tests.voices import MOST, turned
from tests.word_makers import EVENT, FORM

VIEW = brief_view([asked("trend", "economy", {})], measures=MEASURES)
SEEDS = st.integers(0, 2**32 - 1)
NAMED = {"win_share": "share of matches"}  # part of a name, where its balls come inside it
EACH = 40  # findings of one seed
DRAWN = settings(max_examples=25, deadline=None)


def cases(seed: int, count: int = EACH) -> list[Case]:
    rng = Random(seed)
    return [any_case(rng) for _ in range(count)]


def said(case: Case) -> str:
    return " ".join(of_kinds.said(*case, FORM, EVENT))


@pytest.mark.parametrize("by", range(MOST))
@given(SEEDS)
@DRAWN
def test_what_is_said_of_a_finding_is_carried_by_its_numbers(by: int, seed: int):
    """In every form that the voice has for it."""
    with turned(by):
        for case in cases(seed):
            text = said(case)
            assert not all_wrong(text, case), text


@given(SEEDS)
@DRAWN
def test_a_finding_in_one_sentence_says_no_more_than_its_verdicts(seed: int):
    for case in cases(seed):
        text = of_kinds.breath(*case, FORM, EVENT)
        found = [*wrong(text, case), *wrong_words(text, case.finding)]
        assert not [*found, *wrong_in_short(text, case.finding)], text


@given(SEEDS)
@DRAWN
def test_a_title_says_the_verdict_of_its_finding(seed: int):
    for case in cases(seed):
        finding = case.finding
        text = of_kinds.title([finding], *case[1:], [finding.id], FORM, EVENT)
        of_list = case.beat.person is not None  # a title counts its names, no verdict is told
        words = [] if of_list else wrong_words(text, finding)
        assert not [*wrong(text, case), *words], text


@given(SEEDS)
@DRAWN
def test_cards_rows_frames_and_facts_show_the_numbers_of_their_finding(seed: int):
    for case in cases(seed):
        facts = {fact.id: fact for fact in facts_of(VIEW, findings_of(case.finding))}
        assert not list(wrong_prints(case, facts)), case.finding.id


@given(SEEDS)
@DRAWN
def test_what_is_printed_for_a_challenge_is_the_test_of_its_finding(seed: int):
    for case in cases(seed):
        lines = [
            line(case.finding, case.beat, FORM)
            for line in (challenged.test_line, challenged.drift_line, challenged.control_line)
        ]
        assert not list(wrong_test(lines, case)), lines


@given(SEEDS)
@DRAWN
def test_the_data_agree_with_nothing_that_a_finding_does_not_show(seed: int):
    for case in cases(seed):
        for means in means_of(case.beat, case.finding.cell):
            found = found_of(means, case.finding)
            assert not list(wrong_found(found, means, case.finding)), (means, found)


def test_the_data_agree_with_what_a_finding_shows():
    """Each of the answers that may be given is given to some finding."""
    drawn = cases(1, 3000)
    given_to = {
        (means, found_of(means, case.finding).split(":")[0])
        for case in drawn
        for means in means_of(case.beat, case.finding.cell)
    }
    assert {means for means, found in given_to if found == "The data agree"} == set(may_say())


@given(SEEDS)
@DRAWN
def test_what_people_say_stands_beside_both_verdicts(seed: int):
    for case in cases(seed, 10):
        finding, means = case.finding, means_of(case.beat, case.finding.cell)[0]
        asks = [Expectation(say="It did", finding=finding.id, means=means)]
        view = VIEW.model_copy(
            update={"beats": [case.beat], "expected": asks, "event": EVENT, "format": FORM}
        )
        (row,) = expected(view, {finding.id: finding})
        assert row.word == found_of(means, finding)
        assert row.found == of_kinds.found(*case, FORM, EVENT)
        if finding.verdict != "can't tell" or finding.refused:
            assert row.found == of_kinds.breath(*case, FORM, EVENT)


@given(SEEDS)
@DRAWN
def test_the_answer_names_each_headline_once_with_its_verdict(seed: int):
    rng, headlines = Random(seed), {}
    for _ in range(rng.randint(1, 5)):
        case = any_case(rng)
        headlines.setdefault(case.finding.measure, case)
    lines = answer(list(headlines.values()), FORM, lambda _: EVENT)
    for case in headlines.values():
        names = (case.measure.label, case.measure.said or "", NAMED.get(case.finding.measure, ""))
        name = re.compile("|".join(re.escape(each) for each in names if each), re.IGNORECASE)
        (own,) = [line for line in lines if name.search(line)]
        assert len(name.findall(own)) == 1, own
        if own.lower().count("whether") < 2:  # of one finding alone
            assert not list(wrong_words(own, case.finding, looks=False)), own
            assert not list(wrong_in_short(own, case.finding)), own


@given(SEEDS)
@DRAWN
def test_a_line_that_goes_on_from_another_turns_only_where_the_numbers_do(seed: int):
    """'Now the other way': after a change, of a change that goes the other way."""
    rows = list(alike(Random(seed)))
    findings = [case.finding for case in rows]
    beat, among = rows[0].beat, findings_of(*findings)
    own_words = {
        case.finding.id: " ".join(sentences_of(case.finding, beat, among, VIEW)) for case in rows
    }
    lines = [line.text for line in lines_said(findings, beat, among, VIEW)]
    before: Finding | None = None
    for line in lines:
        own = next(
            case for case in rows if line.lower().endswith(own_words[case.finding.id].lower())
        )
        lead, finding = line[: -len(own_words[own.finding.id])], own.finding
        if lead:
            assert before and {before.verdict, finding.verdict} == {"changed"}, line
            assert told(before).value * told(finding).value < 0, line
            assert not list(wrong_words(line, finding)), line
        before = finding


def alike(rng: Random) -> list[Case]:
    """Two or three findings of one beat and one measure."""
    make = rng.choice((any_groups, any_gap, ANY_KIND[0]))
    first = make(rng)
    found = {first.finding.id: first}
    for _ in range(60):
        case = make(rng)
        if case.finding.measure == first.finding.measure and case.beat.kind == first.beat.kind:
            found.setdefault(case.finding.id, case._replace(beat=first.beat))
    return list(found.values())
