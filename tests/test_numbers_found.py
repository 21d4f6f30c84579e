"""Which numbers of a line are facts: whole ones, in the form they are said in, and no others."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.contracts.facts import Fact
from pipeline.slots.number_words import number_spans
from pipeline.slots.numbers_found import found_in
from pipeline.voice.forms import voice
from pipeline.wording import numbers, phrases
from tests.test_fact_forms import MOVE, VALUE, fact

BEFORE = fact(VALUE)
AFTER = fact(VALUE, id="b.economy.after", value=4.09, spoken="four point nought nine an over")
CHANGE = fact(MOVE)
STEP = fact(MOVE, id="b.economy.step")
FELT = fact(MOVE, id="b.economy.felt", spoken="about four runs fewer", scale=1, unit_said="runs")
FACTS = [BEFORE, AFTER, CHANGE, FELT, STEP]


def slots(text: str, facts: list[Fact] | None = None, **more: Any) -> list[str]:
    """What is found, as 'part | form: the words'."""
    found = found_in(text, FACTS if facts is None else facts, **more)
    return [
        f"{each.fact.rpartition('.')[2]} | {each.form}: {text[slice(*each.span)]}" for each in found
    ]


def test_a_line_is_full_of_its_own_facts():
    text = (
        "Economy fell from four and a half an over to four point one. In a spell of ten overs, "
        "that is about four runs fewer. Allow for luck: anywhere from five to ten per cent."
    )
    assert slots(text) == [
        "before | rounded: four and a half an over",
        "after | number: four point one",
        "felt | said: about four runs fewer",
        "change | extent: anywhere from five to ten per cent",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "In a spell of four point one overs.",
        "We tested four point one numbers.",
        "It was twenty-four point one.",
        "It was four point one five.",
        "It was one hundred and four point one.",
        "It was four point one-sided.",
        "It was one in four point one.",
        "Nothing is said of it.",
        "",
    ],
)
def test_a_number_of_another_thing_or_half_of_one_stays(text: str):
    assert slots(text) == []


@pytest.mark.parametrize("after", [".", ",", " before.", " with the mix held still.", ""])
def test_a_number_without_its_unit_is_found_where_the_clause_goes_on(after: str):
    assert slots(f"It was four point one{after}") == ["after | number: four point one"]


def test_of_two_that_read_alike_the_first_is_said_first():
    same = fact(VALUE, id="b.economy.after")
    text = "It was four and a half an over, then four and a half an over."
    found = slots(text, [BEFORE, same])
    assert [each.split(" ")[0] for each in found] == ["before", "after"]


def test_what_the_sentence_names_is_meant():
    text = "It could be anywhere from five to ten per cent down. The step: about seven per cent."
    assert slots(text) == [
        "change | range: anywhere from five to ten per cent down",
        "step | size: about seven per cent",
    ]


def test_a_capital_at_the_beginning_is_kept():
    assert slots("Anywhere from five to ten per cent down.") == [
        "change | Range: Anywhere from five to ten per cent down"
    ]


def test_one_is_no_number_and_half_is_half_of_something():
    one = fact(VALUE, value=1.0, digits=0)
    assert slots("That one, they say, is one.", [one]) == []
    half = fact(VALUE, value=50, unit_said="per cent", digits=0, spoken="fifty per cent")
    assert slots("That is half a run.", [half]) == []


def test_a_fact_that_the_line_names_may_stand_before_any_noun():
    count = Fact(
        id="players", value=34, unit="players", display="34", spoken="thirty-four", digits=0
    )
    text = "Thirty-four bowlers have three hundred balls."
    assert slots(text, [count]) == []
    assert slots(text, [count], trusted=["players"]) == ["players | Number: Thirty-four"]


def test_numbers_go_as_far_as_they_go():
    text = (
        "Two and three, twenty-one of thirty-three, one hundred and five, four and a half, "
        "two thirds, nought point nought four, twenty seventeen, one in seven, half, "
        "−3.5% and 1,204; anyone."
    )
    assert [text[slice(*span)] for span in number_spans(text)] == [
        *("Two", "three", "twenty-one", "thirty-three", "one hundred and five", "four and a half"),
        *("two thirds", "nought point nought four", "twenty seventeen", "one in seven", "half"),
        *("−3.5%", "1,204"),
    ]


@given(st.integers(0, 10**7), st.integers(0, 3), st.sampled_from(["", " an over", " runs."]))
def test_any_number_as_it_is_said_is_one_number(count: int, decimals: int, after: str):
    for said in (
        numbers.said(count / 10**decimals, decimals),
        phrases.value_said(count / 10**decimals, decimals),
    ):
        assert number_spans(f"It was {said}{after}")[:1] == [(7, 7 + len(said))], said


@pytest.mark.parametrize("at", range(voice().count("control.beyond")))
def test_what_is_held_against_a_control_is_not_the_change_that_reads_alike(at: int):
    reach = "anywhere from five to ten per cent"
    against = voice().put("control.beyond", at, {"name": "pace", "way": "down", "reach": reach})
    facts = [CHANGE, fact(MOVE, id="b.economy.beyond-control")]
    assert slots(f"That’s a real fall: {reach}. {against}", facts) == [
        f"change | extent: {reach}",
        f"beyond-control | extent: {reach}",
    ]
