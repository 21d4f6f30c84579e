"""Which season, ground or side carries a headline, and what is said of it."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.contracts.panel import Choice, Panel
from pipeline.significance.carried import carrier
from pipeline.wording.other_ways import carries_said, panel_said
from tests.finding_makers import change, effect
from tests.word_makers import ECONOMY


def choice(what: str, value: float | None, verdict: Any = "changed", **more: Any) -> Choice:
    low, high = (None, None) if value is None else (value - 0.01, value + 0.01)
    plain = {"same": False, **more}
    return Choice(kind="side", what=what, value=value, low=low, high=high, verdict=verdict, **plain)


def said(verdict: str, own: float, *choices: Choice) -> str:
    finding = change(verdict=verdict, effect=effect(change=own, difference=own * 5))
    (note,) = carrier(finding, Panel(stretch="season", choices=list(choices)))
    return carries_said(note, "Economy")


def test_what_held_goes_no_other_way_and_the_largest_change_without_it_is_named():
    one = said("held", -0.002, choice("Quillport", 0.06))
    assert one == "Economy: leave the matches of Quillport out, and it moved."
    assert "Foxley" in said("held", -0.002, choice("Quillport", -0.06), choice("Foxley", -0.2))
    refused = choice("Foxley", None, "can't tell", refused="one_match_holds_all")
    assert "Quillport" in said("held", -0.002, choice("Quillport", -0.06), refused)


def test_of_a_change_the_least_that_is_left_is_named():
    weak, turned = choice("Quillport", 0.02, "can't tell"), choice("Foxley", -0.04)
    assert "Quillport out, and it can’t be told" in said("changed", 0.1, weak)
    assert "Foxley out, and it goes the other way" in said("changed", 0.1, weak, turned)


@pytest.mark.parametrize(
    ("refused", "words"),
    [
        ("few_matches", "there are too few matches to tell"),
        ("no_balls", "there are too few matches to tell"),
        ("one_match_holds_all", "it can’t be told"),
        ("no_spread", "it can’t be told"),
    ],
)
def test_a_way_without_a_number_says_why_only_where_it_is_true(refused: str, words: str):
    one = choice("Quillport", None, "can't tell", refused=refused)
    assert said("changed", 0.1, one) == f"Economy: leave the matches of Quillport out, and {words}."


def test_a_way_without_a_number_is_not_the_same_as_an_open_one():
    refused = choice("B", None, "can't tell", refused="few_matches")
    told = Panel(stretch="season", choices=[choice("A", 0.1, "can't tell", same=True), refused])
    assert panel_said(told, "can't tell", ECONOMY) == (
        "We asked it two ways. One left it just as open."
    )
