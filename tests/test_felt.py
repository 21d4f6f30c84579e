"""A difference on the field in words, and what follows a number."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.wording.on_the_field import counted, felt_said
from pipeline.wording.values import unit_said, values_said
from tests.finding_makers import felt, gap, side
from tests.word_makers import ECONOMY, FORM, SHARE, moved, share_moved, turn


def line(per: Any, verdict: str = "changed", **more: Any) -> str | None:
    return felt_said(moved(0.1, 0.03, verdict, felt=felt(per=per, **more)), ECONOMY, FORM)


def test_what_is_felt_is_told_of_what_changed():
    assert line("spell") == "In a spell of ten overs, that’s nearly five runs more."
    assert line("those overs", value=-4.5) == (
        "Over those ten overs, that’s nearly five runs fewer."
    )
    assert line("") is None and line("spell", "held") is None
    assert line("spell", value=0.2) is None  # less than one run
    assert felt_said(turn(), ECONOMY, FORM) is None


@pytest.mark.parametrize(("an_over", "times"), [(6, 60), (8, 80)])
def test_overs_are_as_long_as_the_format_has_them(an_over: int, times: int):
    form = FORM.model_copy(update={"balls_per_over": an_over})
    found = felt(15, 1.0, per="those overs", times=times, of="balls")
    assert felt_said(share_moved(4.0, 0.9, felt=found), SHARE, form) == (
        "Over those ten overs, that’s about fifteen balls more."
    )


@pytest.mark.parametrize(
    ("an_over", "balls", "overs"),
    [
        (6, 11, ""),
        (6, 12, "two overs"),
        (6, 15, "two and a half overs"),
        (6, 16, ""),
        (8, 12, ""),
        (8, 20, "two and a half overs"),
        (5, 12, ""),
        (5, 15, "three overs"),
    ],
)
def test_many_balls_of_an_innings_are_overs_too(an_over: int, balls: int, overs: str):
    form = FORM.model_copy(update={"balls_per_over": an_over})
    found = felt(balls, 1.0, per="innings", times=50 * an_over, of="balls")
    line = felt_said(share_moved(4.0, 0.9, felt=found), SHARE, form)
    assert line and line.rstrip(".").partition(": ")[2] == overs


@pytest.mark.parametrize(
    ("changes", "noun"),
    [
        ({}, "runs"),
        ({"counted": "dot balls"}, "dot balls"),
        ({"kind": "share", "unit": "per cent of balls"}, "balls"),
    ],
)
def test_what_is_counted(changes: dict[str, Any], noun: str):
    assert counted(ECONOMY.model_copy(update=changes)) == noun


def test_what_follows_a_number():
    assert unit_said(ECONOMY) == "an over" and unit_said(SHARE) == "per cent"
    half = SHARE.model_copy(update={"spoken": "of them"})
    assert unit_said(half) == "per cent of balls"


def test_values_are_of_windows_or_groups():
    with pytest.raises(ValueError, match="its sides are changes"):
        values_said(gap(), ECONOMY)
    with pytest.raises(ValueError, match="no value"):
        values_said(moved(0.1, 0.03, a=side(None)), ECONOMY)


@pytest.mark.parametrize(
    ("after", "verdict", "values"),
    [
        (5.04, "changed", ("five", "five point nought four")),  # to a tenth they would meet
        (5.04, "held", ("five", "five point nought four")),  # and so they would in the table
        (5.004, "held", ("five", "five")),  # there too
        (5.06, "held", ("five", "five point nought six")),  # a tenth apart would be too much
        (5.08, "held", ("five", "five point one")),
        (5.5, "changed", ("five", "five and a half")),
    ],
)
def test_two_values_are_said_as_far_apart_as_they_are(after: float, verdict: str, values):
    """Each is known to a tenth."""
    found = moved(after / 5 - 1, 0.01, verdict)
    assert values_said(found, ECONOMY) == values


def test_values_shown_apart_are_not_said_alike_where_nothing_can_be_told():
    """Nought point six and one point one sixes, by intervals that bear no decimal."""
    sixes = ECONOMY.model_copy(update={"decimals": 1})
    few = {"a": side(0.62, low=0.1, high=1.2), "b": side(1.12, low=0.4, high=1.9)}
    found = moved(0.8, 2.0, "can't tell", **few)
    assert values_said(found, sixes) == ("nought point six", "one point one")


def test_shares_are_said_so_that_they_subtract():
    """'Thirty-six to forty-four' would be eight points where eight and a half are told."""
    found = share_moved(8.5, 1.0)
    found.a, found.b = (side(value, low=value - 1, high=value + 1) for value in (35.6, 44.1))
    assert values_said(found, SHARE) == ("thirty-five point six", "forty-four point one")
    found.a, found.b = (side(value, low=value - 1, high=value + 1) for value in (36.1, 44.2))
    assert values_said(found, SHARE) == ("thirty-six", "forty-four")


def test_values_are_said_to_what_the_finer_interval_bears():
    sides = {"a": side(5.234, low=4.634, high=5.834), "b": side(5.834, low=5.804, high=5.864)}
    assert values_said(moved(0.1, 0.03, **sides), ECONOMY)[0] == "five point two three"
    sides["b"] = side(5.834, low=5.5, high=6.2)
    assert values_said(moved(0.1, 0.03, **sides), ECONOMY)[0] == "five point two"
    unknown = {"a": side(5.234, low=None, high=None), "b": side(5.834, low=None, high=None)}
    assert values_said(moved(0.1, 0.03, **unknown), ECONOMY)[1] == "five point eight three"
