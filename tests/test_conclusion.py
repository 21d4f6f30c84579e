"""What of a finding's conclusion stands, beside the number itself; which part a sentence tells."""

from __future__ import annotations

import re
from typing import Any

import pytest
from msgspec import structs

from pipeline.contracts.composition import Composition
from pipeline.contracts.finding import Change, Finding, drift_of
from pipeline.contracts.over_time import Bend, Slope
from pipeline.errata.conclusion import moved, stands
from pipeline.errata.number import Number, OfFinding, OfTopic
from pipeline.errata.told_of import told_of
from pipeline.wording.control import control_said
from pipeline.wording.kinds.gap import compared
from pipeline.wording.linked import is_link
from pipeline.wording.of_kinds import breath
from pipeline.wording.second_verdict import OWN, drift_said
from tests.fact_makers import fact
from tests.finding_makers import control, span
from tests.outcomes import OUTCOMES, Outcome, matrix
from tests.voices import turned
from tests.word_makers import BEAT, ECONOMY, EVENT, FORM, beside
from tests.word_makers import moved as changed

SAME = "The verdict is the same: changed."


def number(finding: Finding) -> OfFinding:
    return OfFinding(fact("b.economy.change", "−10.0%"), BEAT, ECONOMY, FORM, finding, EVENT)


def told(was: Finding, now: Finding) -> list[str]:
    return stands(number(was), number(now))


def at_level(finding: Finding, level: float) -> Finding:
    return structs.replace(finding, effect=structs.replace(finding.told, level=level))


# What stands


def test_a_verdict_that_is_another_does_not_stand():
    was, now = changed(-0.10, 0.03), changed(-0.10, 0.03, "held")
    assert told(was, now) == ["The verdict does not stand: it was ‘changed’, and is ‘held’."]
    assert moved(number(was), number(now)) and not moved(number(was), number(was))
    assert told(was, was) == [SAME]


def test_what_is_lost_by_the_count_of_looks_says_so():
    was, open_ = changed(0.06, 0.07), changed(0.06, 0.07, "can't tell")
    lost = structs.replace(open_, because="lost_among_many", family_size=7)
    assert told(was, lost) == [
        "The verdict does not stand: it was ‘changed’, and is ‘can’t tell’, as one of seven "
        "numbers we tested."
    ]
    assert told(open_, lost) == [
        "The verdict is the same: can’t tell.",
        "Its reason is another: it was ‘interval too wide’, and is ‘lost among many’.",
    ]
    assert moved(number(open_), number(lost)) and moved(number(lost), number(open_))


def test_another_count_of_looks_is_told_and_is_no_other_verdict():
    """The card said 'one of 7 looks', which was true of then."""
    lost = changed(0.06, 0.07, "can't tell", because="lost_among_many", family_size=7)
    now = structs.replace(lost, family_size=9)
    assert told(lost, now) == [
        "The verdict is the same: can’t tell.",
        "It was one of seven numbers we tested, and is one of nine.",
    ]
    assert not moved(number(lost), number(now))


def test_an_interval_of_another_confidence_is_no_other_number():
    was = changed(-0.10, 0.03)
    now = at_level(was, 0.9875)
    assert told(was, now) == [
        SAME,
        "Its interval is of 98.75% now and was of 95%: it allows for how many numbers are tested "
        "together, which is no change of the number.",
    ]
    assert told(now, was) == [
        SAME,
        "Its interval is of 95% now and was of 98.75%, which is no change of the number.",
    ]
    assert not moved(number(was), number(now))


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        (
            {"drift": beside("beyond the drift")},
            {"drift": beside("in line with the drift")},
            "drift does not stand: it was ‘beyond the drift’, and is ‘in line with the drift’.",
        ),
        (
            {"drift": beside("beyond the drift")},
            {"drift": None},
            "drift does not stand: it was ‘beyond the drift’, and is not asked any more.",
        ),
        (
            {"control": control()},
            {"control": control(verdict="in line with the control")},
            "control does not stand: it was ‘beyond the control’, and is ‘in line with the "
            "control’.",
        ),
    ],
)
@pytest.mark.parametrize("verdict", ["changed", "held", "can't tell"])
def test_the_drift_and_the_control_stand_or_fall_whatever_the_verdict_is(
    verdict: str, was: Any, now: Any, said: str
):
    then, today = (changed(-0.10, 0.03, verdict, **more) for more in (was, now))
    assert told(then, today)[1:] == [f"What is said of the {said}"]
    assert moved(number(then), number(today))


def test_what_an_older_brief_did_not_tell_has_not_fallen():
    """Until drifts had intervals, the second verdict was told only of what had changed."""
    without = Slope(value=0.01, low=None, high=None)
    then = beside("beyond the drift", slope=without)
    then_beside = control(verdict="beyond the control")
    old_effect = structs.replace(then_beside.effect, se_log=None)
    told_then = {"drift": then, "control": structs.replace(then_beside, effect=old_effect)}
    now = {
        "drift": beside("in line with the drift"),
        "control": control(verdict="in line with the control"),
    }
    held, held_now = (changed(-0.01, 0.02, "held", **more) for more in (told_then, now))
    assert not moved(number(held), number(held_now)) and len(told(held, held_now)) == 1
    fell, fell_now = (changed(-0.10, 0.03, **more) for more in (told_then, now))
    assert moved(number(fell), number(fell_now)) and len(told(fell, fell_now)) == 3


def test_of_no_finding_nothing_stands_or_falls():
    found, none = number(changed(-0.1, 0.03)), OfTopic(fact("data.matches", "560"))
    nothing: list[tuple[Number, Number | None]] = [(none, None), (none, found)]
    assert not any(moved(*pair) for pair in nothing)
    assert moved(found, None) and moved(found, none) and stands(found, None) == []


# What a sentence tells


def cut(line: str | None) -> list[str]:
    """Its sentences, each of which begins with a capital letter."""
    return re.split(r"(?<=[.?]) (?=[A-Z‘“])", line) if line else []


@pytest.mark.parametrize(("by", "outcome"), list(enumerate([*OUTCOMES, *matrix()])))
def test_sentences_on_the_drift_and_the_control_are_told_from_the_rest(by: int, outcome: Outcome):
    """Of every outcome, each in other forms: those that bear a number of theirs, and no other."""
    finding = outcome.finding
    gap = outcome.name.startswith("a gap")
    whose = compared("spin’s economy", "pace") if gap else OWN
    with turned(by):
        drift = cut(" ".join(drift_said(finding, whose)))
        beside_control = cut(" ".join(control_said(finding)))
        for sentence in cut(outcome.said()):
            part = "drift" if sentence in drift else ""
            part = "control" if sentence in beside_control else part
            assert is_link(sentence) or told_of(sentence) == part, sentence


@pytest.mark.parametrize("outcome", matrix(), ids=lambda outcome: outcome.name)
def test_a_headline_s_sentence_is_on_its_number_whatever_ends_it(outcome: Outcome):
    said = breath(outcome.finding, outcome.beat, outcome.measure, FORM, EVENT)
    assert told_of(said) == ""


ALIKE = [
    Composition(moved=[], differs=shown, held=["batting_team", "ground"], **{name: span(value)})
    for shown, name in (("like for like", "like_for_like"), ("held still", "held_still"))
    for value in (0.0, 0.06, -0.06)
]


@pytest.mark.parametrize("found", ALIKE)
def test_nor_does_it_matter_what_it_is_like_for_like_or_where_its_trend_bends(found: Composition):
    bent = [Bend(shape="slope change", survives=False, p=0.2)]
    tails = set()
    for outcome in matrix():
        finding, drift = outcome.finding, drift_of(outcome.finding)
        if not isinstance(finding, Change) or finding.refused:
            continue
        if drift and drift.test:
            drift = structs.replace(drift, test=structs.replace(drift.test, bends=bent))
        finding = structs.replace(finding, composition=found, drift=drift)
        said = breath(finding, outcome.beat, outcome.measure, FORM, EVENT)
        assert told_of(said) == "", said
        tails |= {each for each in ("; ", "ran straight") if each in said}
    assert tails == {"; ", "ran straight"}


@pytest.mark.parametrize(
    ("sentence", "part"),
    [
        (
            "Like for like, the run rate rose by six per cent; the plain figures say two up.",
            "alike",
        ),
        ("With sides and grounds held still, we can’t show that the run rate moved.", "alike"),
        ("The same in all nineteen reasonable ways of asking.", "ways"),
        ("From season to season, the run rate moves by about two per cent anyway.", "yardstick"),
        ("We can’t call that a rise: the usual swings from season to season could do that.", ""),
        ("It was rising by about two per cent a season anyway: that comes to eight.", "drift"),
        ("This is a step on top of that: about eight per cent down.", "drift"),
        ("It was going nowhere from season to season.", "drift"),
        ("Whether it was heading there already can’t be tested: there is one season.", "drift"),
        ("Set against pace, it is still a change: between seven and eight per cent up.", "control"),
        ("Set against pace, it could be none: anything up to two per cent up fits.", "control"),
        ("Set against pace’s, spin’s economy went down about nine per cent.", ""),
        ("That is a real change: between five and ten per cent down.", ""),
        ("Alone that would pass; as one of forty looks it doesn’t.", ""),
    ],
)
def test_so_are_those_of_older_editions(sentence: str, part: str):
    assert told_of(sentence) == part
