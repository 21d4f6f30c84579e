"""The order of an argument, and how a beat follows another, of beats and findings made for it."""

from __future__ import annotations

import pytest

from pipeline.config.topic import Expectation
from pipeline.contracts.finding import Finding
from pipeline.episode.argument import Argument, argument
from pipeline.episode.choice import chosen
from pipeline.episode.following import joins
from tests.brief_makers import brief_view, findings_of
from tests.outcomes import CANT_TELL
from tests.word_makers import EVENT, beat, gap_between, moved

THREE = ("one", "two", "three")


def argued(
    beats: list, *found: Finding, headlines: tuple[str, ...] = (), expected: str = ""
) -> Argument:
    view, findings = brief_view(beats), findings_of(*found, headlines=list(headlines))
    if expected:
        says = Expectation(say="It went up", finding=expected, means="rises")
        view = view.model_copy(update={"expected": [says]})
    return argument(view, findings, chosen(view, findings))


@pytest.mark.parametrize(("verdict", "offered"), [("changed", True), (CANT_TELL, False)])
def test_another_order_is_offered_for_a_clear_answer_only(verdict: str, offered: bool):
    beats = [beat("before_after", id=name) for name in THREE]
    rows = [moved(0.1, 0.03, verdict, id=f"{name}.economy", beat=name, values={}) for name in THREE]
    found = argued(beats, *rows, headlines=("three.economy",))
    assert found.roles["three"] == "answers"
    assert found.other == (["three", "one", "two"] if offered else [])


@pytest.mark.parametrize(
    ("expected", "verdict", "first", "by"),
    [
        ("two.economy", "changed", ["two", "three", "one"], "expectation"),
        ("two.economy", CANT_TELL, ["three", "one", "two"], "answer"),
        ("three.economy", "changed", ["three", "one", "two"], "answer"),
    ],
)
def test_what_people_say_comes_first_where_it_can_be_told(expected, verdict, first, by):
    beats = [beat("before_after", id=name) for name in THREE]
    verdicts = {"one": "changed", "two": verdict, "three": "changed"}
    rows = [
        moved(0.1, 0.03, verdicts[name], id=f"{name}.economy", beat=name, values={})
        for name in THREE
    ]
    found = argued(beats, *rows, headlines=("three.economy",), expected=expected)
    assert (found.other, found.by) == (first, by)


@pytest.mark.parametrize(("groups", "turns"), [(["pace", "spin"], True), (["spin", "pace"], False)])
def test_a_gap_of_other_groups_is_no_turn(groups: list[str], turns: bool):
    """Nor is the same one, taken the other way round."""
    beats = [
        beat("gap", id="one", between={"bowler_kind": ["pace", "spin"]}),
        beat("gap", id="two", between={"bowler_kind": groups}),
    ]
    rows = [
        gap_between(0.03, 0.09, 0.06, 0.02, id="one.economy", beat="one"),
        gap_between(0.09, 0.03, -0.06, 0.02, id="two.economy", beat="two"),
    ]
    assert argued(beats, *rows).turning == ({"two"} if turns else set())


@pytest.mark.parametrize(
    ("was", "now", "name"),
    [
        ({"phase": ["powerplay"]}, {"phase": ["death"]}, "elsewhere"),
        ({"overs": "1-10"}, {"overs": "11-20"}, "elsewhere"),
        ({"phase": ["powerplay", "middle"]}, {"phase": ["middle"]}, "next"),
        ({"phase": ["powerplay", "middle"]}, {"phase": ["middle", "death"]}, "next"),
        ({"overs": "1-10"}, {"overs": "6-15"}, "next"),
    ],
)
def test_other_balls_share_none_with_those_before(was: dict, now: dict, name: str):
    beats = [beat("before_after", id=each, where=of) for each, of in (("one", was), ("two", now))]
    joined = joins(brief_view(beats))["two"]
    assert joined is not None and joined.name == f"join.{name}"


@pytest.mark.parametrize(("about", "name"), [(None, "narrower"), ("break", "next")])
def test_after_another_event_no_beat_is_a_part_of_the_one_before(about: str | None, name: str):
    beats = [
        beat("before_after", id="one", about=about),
        beat("before_after", id="two", where={"phase": ["death"]}),
    ]
    joined = joins(brief_view(beats, others={"break": EVENT}))["two"]
    assert joined is not None and joined.name == f"join.{name}"
