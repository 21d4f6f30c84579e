"""Numbers as they are said and written: their words, their value, what goes with them."""

from __future__ import annotations

import pytest

from pipeline.said.corrected import begins_anew, withdrawn
from pipeline.said.read_numbers import read
from pipeline.said.tokens import tokens_of
from pipeline.said.units import unit_after, unit_of


def heard(text: str) -> list[tuple[str, float, str]]:
    tokens = tokens_of(text)
    return [
        (text[tokens[one.first].begins : tokens[one.last - 1].ends], round(one.value, 4), one.form)
        for one in read(tokens)
    ]


@pytest.mark.parametrize(
    ("text", "said", "value", "form"),
    [
        ("to four point nought nine an over", "four point nought nine", 4.09, "number"),
        ("at seven point oh five", "seven point oh five", 7.05, "number"),
        ("by nought point six", "nought point six", 0.6, "number"),
        ("by point six of a per cent", "point six", 0.6, "number"),
        ("four hundred and twenty balls", "four hundred and twenty", 420, "number"),
        ("a hundred of them", "a hundred", 100, "number"),
        ("half a million balls", "half a million", 500_000, "number"),
        ("a quarter of a million balls", "a quarter of a million", 250_000, "number"),
        ("two and a half overs", "two and a half", 2.5, "number"),
        ("two and three quarters", "two and three quarters", 2.75, "number"),
        ("a run and a half an over", "a run and a half", 1.5, "number"),
        ("a quarter of it", "a quarter", 0.25, "share"),
        ("two thirds of it", "two thirds", 0.6667, "share"),
        ("three in five of them", "three in five", 0.6, "odds"),
        ("one in five", "one in five", 0.2, "odds"),
        ("one ball in thirteen", "one ball in thirteen", 0.0769, "odds"),
        ("two out of every three", "two out of every three", 0.6667, "odds"),
        ("half of it", "half", 0.5, "share"),
        ("half what it was", "half", 0.5, "times"),
        ("twice as much", "twice", 2, "times"),
        ("it tripled", "tripled", 3, "times"),
        ("went to 4.5", "4.5", 4.5, "number"),
        ("fell 8.6%", "8.6", 8.6, "number"),
        ("all 314,939 balls", "314,939", 314_939, "number"),
        ("43.8 percent", "43.8", 43.8, "number"),
        ("about 1/5 of it", "1/5", 0.2, "share"),
        ("a change of −0.9", "−0.9", -0.9, "number"),
        ("forty three point eight per cent", "forty three point eight", 43.8, "number"),
        ("in twenty twenty-four", "twenty twenty-four", 2024, "year"),
        ("in nineteen oh five", "nineteen oh five", 1905, "year"),
        ("in two thousand and nine", "two thousand and nine", 2009, "year"),
        ("in 2017", "2017", 2017, "year"),
        ("in 2017-18", "2017-18", 2017, "year"),
        ("the twenty-first time", "twenty-first", 0, "ordinal"),
        ("the 4th", "4th", 4, "ordinal"),
        ("took four for thirty-two", "four for thirty-two", 4, "score"),
        ("were 240/6", "240/6", 240, "score"),
        ("seven overs and three balls", "seven overs and three balls", 7.5, "overs"),
        ("bowled 12.4 overs", "12.4", 12.4, "number"),
        ("half a run an over", "half", 0.5, "share"),
        ("three hundred and fourteen thousand nine hundred and thirty-nine",
         "three hundred and fourteen thousand nine hundred and thirty-nine", 314_939, "number"),
    ],
)  # fmt: skip
def test_a_number_is_read_from_its_first_word_to_its_last(
    text: str, said: str, value: float, form: str
):
    assert heard(text) == [(said, value, form)]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("from twelve to eighteen per cent", [12, 18]),
        ("between one and sixteen", [1, 16]),
        ("3–20%", [3, 20]),
        ("five, twenty and thirty two", [5, 20, 32]),
        ("twenty four, five six", [24, 5, 6]),
        ("an over of pace", []),
        ("oh, the over is done", []),
    ],
)
def test_numbers_that_stand_beside_each_other_are_apart(text: str, values: list[float]):
    assert [value for _, value, _ in heard(text)] == values


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("4 per cent", "per cent"),
        ("4%", "per cent"),
        ("4 percentage points", "points"),
        ("4 points", "points"),
        ("4 an over", "an over"),
        ("4 runs per over", "an over"),
        ("4 runs", "runs"),
        ("4 more runs", "runs"),
        ("4 deliveries", "balls"),
        ("4 balls a wicket", "balls a wicket"),
        ("4 runs per hundred balls", "runs a hundred balls"),
        ("4 runs a 100 balls", "runs a hundred balls"),
        ("4 games", "matches"),
        ("4 dot balls", "dot balls"),
        ("4 balls an innings", "balls"),
        ("4 point", "points"),
        ("4 at the coast", None),
    ],
)
def test_a_unit_has_one_name_however_it_is_said(text: str, unit: str | None):
    found = unit_after(tokens_of(text), 1)
    assert (found.name if found else None) == unit


def test_a_season_that_follows_is_told_with_the_unit():
    found = unit_after(tokens_of("4 per cent a season"), 1)
    assert found and found.a_time and not unit_after(tokens_of("4 per cent a head"), 1).a_time


@pytest.mark.parametrize(
    ("written", "unit"),
    [
        ("runs an over", "an over"),
        ("per cent of balls", "per cent"),
        ("per cent of the share itself a season", "per cent"),
        ("runs, every 10 overs", "runs"),
        ("valid balls", "balls"),
        ("of 33 ways of asking", "ways"),
        ("outs a match", "a match"),
    ],
)
def test_the_unit_of_a_fact_has_the_same_name(written: str, unit: str):
    assert unit_of(written) == unit


@pytest.mark.parametrize(
    ("between", "gone"),
    [
        (", sorry, ", True),
        (", no, ", True),
        (" — no, ", True),
        (", make that ", True),
        (", I mean ", True),
        (" per cent, well, ", True),
        (" and then ", False),
        (" with no drift to ", False),
        (" now. The other, which was not tested before at all, sorry to say, is ", False),
    ],
)
def test_a_number_is_withdrawn_in_the_same_breath(between: str, gone: bool):
    tokens = tokens_of(f"4{between}5")
    assert withdrawn(tokens, [(0, 1), (len(tokens) - 1, len(tokens))]) == [gone, False]


def test_a_short_sentence_may_take_back_the_one_before():
    assert begins_anew("Sorry, twelve per cent.")
    assert not begins_anew("Sorry about that.")
    assert not begins_anew("Twelve per cent.")


def test_a_figure_that_nobody_reads_out_is_a_number_still():
    ((said, _, form),) = heard("about " + "9" * 400 + " of them")
    assert len(said) == 400 and form == "number"
