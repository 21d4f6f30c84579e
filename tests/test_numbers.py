"""Numbers as they are rounded, shown, said and read; phrases that hold of the exact value."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.wording import cricket, numbers, phrases, script
from pipeline.wording.shown_numbers import UNROUNDED, unrounded
from pipeline.wording.values import MOST, decimals_of
from tests.finding_makers import change, effect, side
from tests.word_makers import ECONOMY


@given(value=st.floats(0.01, 400), half=st.floats(0.001, 50))
def test_nearness_is_true_of_the_exact_value(value: float, half: float):
    said = phrases.size(value, half, 1, "runs")
    decimals = numbers.bearable(half, 1)
    rounded = float(numbers.rounded(value, decimals))
    if said.startswith("nearly"):
        assert value < rounded
    elif said.startswith("just over"):
        assert value > rounded
    elif said.startswith("about"):
        assert abs(value - rounded) <= 0.21 * 10.0**-decimals
    else:
        assert said.startswith("less than") and value < 10.0**-decimals
    assert 10.0**-decimals <= max(2 * half, 10.0**-1) * 1.000001 or decimals == 0


@pytest.mark.parametrize(
    ("value", "low", "high", "said"),
    [
        (0.5, 0.4, 0.6, "half"),
        (0.494, 0.4, 0.6, "nearly half"),
        (0.506, 0.4, 0.6, "just over half"),
        (0.335, 0.3, 0.37, "about a third"),
        (0.331, 0.3, 0.37, "about a third"),
        (0.329, 0.3, 0.37, "nearly a third"),
        (0.203, 0.15, 0.25, "about one in five"),
        (0.203, 0.201, 0.205, "twenty per cent"),  # one in five is outside the interval
        (0.62, 0.5, 0.7, "sixty-two per cent"),
    ],
)
def test_simple_fractions_only_where_true(value: float, low: float, high: float, said: str):
    assert phrases.share_said(value, low, high) == said


def test_twice_only_from_one_point_nine_five():
    assert [phrases.times_said(v) for v in (1.94, 1.95, 2.05, 2.06, 0.5)] == [
        *(None, "about twice", "about twice", None, "about half")
    ]


@pytest.mark.parametrize(
    ("value", "decimals", "said"),
    [
        (4.5, 1, "four and a half"),
        (6.333, 2, "six and a third"),
        (6.667, 2, "six and two thirds"),
        (6.143, 2, "six point one four"),  # never sevenths
        (4.5, 2, "four and a half"),
        (0.5, 1, "nought point five"),
        (36.0, 1, "thirty-six"),
    ],
)
def test_halves_and_thirds_when_true_to_the_rounding(value: float, decimals: int, said: str):
    assert phrases.value_said(value, decimals) == said


def test_amounts_under_one():
    assert phrases.amount(0.5, 1, "runs an over") == "half a run an over"
    assert phrases.amount(0.6, 1, "points") == "nought point six of a point"
    assert phrases.amount(0.6, 1, "per cent") == "nought point six per cent"
    assert phrases.amount(1.0, 0, "points") == "one point"


def test_cricket_has_its_own_notation():
    """Overs and balls, scores, figures (common practice; no source)."""
    assert [cricket.overs_shown(balls) for balls in (45, 60, 5)] == ["7.3", "10", "0.5"]
    assert cricket.overs_shown(20, balls_per_over=8) == "2.4"
    assert (
        cricket.overs_said(45) == "seven and a half overs"
        and cricket.overs_said(3) == "half an over"
    )
    assert cricket.overs_said(46) == "seven overs and four balls"
    assert (
        cricket.overs_said(61) == "ten overs and one ball" and cricket.overs_said(6) == "one over"
    )
    assert cricket.score_said(240, 6) == "two hundred and forty for six"
    assert (
        cricket.score_said(99, 10) == "ninety-nine all out"
        and cricket.score_said(4, 0) == "four for none"
    )
    assert cricket.figures_said(4, 32) == "four for thirty-two"


def test_rounding_is_half_away_from_zero_and_never_minus_nought():
    assert [numbers.shown(v, 1) for v in (0.25, -0.25, -0.04)] == ["0.3", "−0.3", "0.0"]
    assert numbers.shown(2.675, 2) == "2.68" and numbers.shown(1234567, 0) == "1,234,567"


def test_signs_percents_and_points():
    assert numbers.percent(0.0334) == "+3.3%" and numbers.percent(-0.1) == "−10.0%"
    assert numbers.points(1.08) == "+1.1 pts" and numbers.shown(0.0, 1, signed=True) == "0.0"


def test_said_in_british_english():
    assert numbers.said(4.5, 1) == "four point five" and numbers.said(31, 1) == "thirty-one"
    assert numbers.said(1204, 0) == "one thousand two hundred and four"
    assert numbers.said(0.07, 2) == "nought point nought seven"


def test_a_unit_agrees_with_one():
    assert numbers.with_unit("one", "balls a wicket") == "one ball a wicket"
    assert numbers.with_unit("one point two", "runs an over") == "one point two runs an over"
    assert numbers.with_unit("one", "percentage points") == "one percentage point"
    assert numbers.with_unit("one", "boundaries") == "one boundary"
    assert numbers.with_unit("one", "per cent") == "one per cent"
    assert numbers.with_unit("one", "sixes") == "one six"
    assert numbers.with_unit("one", "dot balls") == "one dot ball"


def test_arithmetic_is_shown_to_six_figures_without_an_exponent():
    shown = [numbers.figures(v) for v in (4.153021, 1_234_567.0, -0.3333541, 100, 0.0)]
    assert shown == ["4.15302", "1,234,570", "−0.333354", "100", "0"]
    assert numbers.figures(0.25, signed=True) == "+0.25"


@pytest.mark.parametrize(
    ("half", "decimals"), [(3.0, 0), (0.6, 0), (0.3, 1), (0.06, 1), (0.04, 2), (12.0, 0)]
)
def test_no_digit_finer_than_the_interval(half: float, decimals: int):
    assert numbers.bearable(half, 2) == decimals


def test_words_are_counted_as_they_are_read():
    """Figures are spelled out first; 'thirty-one' is two words read at 160 a minute."""
    assert script.spelled("From 4.5 in 2009 to 1,204 in 2017, over 41 to 45") == (
        "From four point five in two thousand and nine to one thousand two hundred and four in "
        "twenty seventeen, over forty-one to forty-five"
    )
    assert script.words("It’s 31 runs") == 4 and script.spelled("1905") == "nineteen oh five"
    assert script.timing(160) == (60, 53, 64) and script.clock(75) == "1:15"
    assert script.timing(16_000) == (6_000, 5_333, 6_400)


@pytest.mark.parametrize(
    ("year", "read"),
    [
        ("2000", "two thousand"),
        ("2009", "two thousand and nine"),
        ("2010", "twenty ten"),
        ("1999", "nineteen ninety-nine"),
        ("1910", "nineteen ten"),
        ("1909", "nineteen oh nine"),
        ("1900", "one thousand nine hundred"),
    ],
)
def test_a_year_is_read_as_one(year: str, read: str):
    assert script.spelled(year) == read


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (3.0, 9.9, "between three and ten per cent up"),
        (-9.9, -3.0, "between three and ten per cent down"),
        (-8.0, 12.0, "from eight per cent down to twelve up"),
        (0.2, 5.0, "between nought point two and five per cent up"),  # no change does not fit
        (-0.2, 5.0, "from nought point two per cent down to five up"),  # it does
        (0.0, 5.0, "up to five per cent up"),
        (0.0, 0.0, "within nought point one per cent of none"),
        (4.96, 5.04, "about five per cent up"),
    ],
)
def test_an_interval_says_on_which_side_of_none_it_lies(low: float, high: float, said: str):
    assert phrases.interval_said(low, high, "per cent") == said


def test_a_width_of_nothing_bears_every_digit():
    assert numbers.bearable(0.0, 2) == 2 and phrases.size(4.5, 0.0, 1, "runs").endswith(
        "a half runs"
    )


def test_only_a_difference_of_the_two_values_is_marked_as_taken_before_rounding():
    """Beside a trend a step is no difference of two values: there is nothing to subtract."""
    a, b = side(4.494), side(4.956)
    assert unrounded(change(a=a, b=b, effect=effect(0.1, 0.462)), ECONOMY) == UNROUNDED
    assert unrounded(change(a=a, b=b, effect=effect(0.1, 0.3)), ECONOMY) == ""


def test_a_change_that_no_digits_would_show_has_the_most_that_there_are():
    told = change(a=side(4.5), b=side(4.5 + 1e-12), effect=effect(1e-12, 1e-12))
    assert decimals_of(told, ECONOMY) == MOST
