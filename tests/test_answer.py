"""The answer in one breath, and what people expected against what was found."""

from __future__ import annotations

import math
from typing import Any

import pytest

from pipeline.config.kinds import AnyBeat
from pipeline.config.topic import Expectation
from pipeline.contracts.finding import Finding, Mix, Rates
from pipeline.contracts.over_time import Drift
from pipeline.wording import expected, of_kinds
from pipeline.wording.answer import more_matches
from pipeline.wording.expected import found_of
from tests.answers import answer
from tests.finding_makers import slope
from tests.word_makers import (
    BEAT,
    ECONOMY,
    EVENT,
    FORM,
    GAP,
    MIX,
    TURN,
    beside,
    gap_between,
    moved,
    part,
    turn,
    untested,
)


def told(*found: Finding, of: AnyBeat = BEAT) -> list[Any]:
    return [(each, of, ECONOMY) for each in found]


def test_the_answer_in_one_breath():
    """Every headline by name: what changed, what held, what is open; a step is told of each."""
    fell = moved(-0.10, 0.03, drift=beside("beyond the drift"))
    held = moved(0.01, 0.02, "held", values={"bowler_kind": "pace"})
    open_one = moved(0.02, 0.1, "can't tell", drift=beside("in line with the drift"))
    other = moved(0.02, 0.1, "can't tell", values={"bowler_kind": "pace", "phase": "death"})
    stepped = moved(0.02, 0.1, "can't tell", values={}, drift=beside("beyond the drift"))
    assert answer(told(open_one, held, other, fell, stepped), FORM) == [
        "Spin’s economy in the middle overs fell by about ten per cent.",
        "And that’s not just an old trend carrying on.",
        "Pace’s economy held.",
        "On the plain figures, we can’t say whether economy changed. But set against the trend "
        "before it, there’s a step down.",
        "We can’t call spin’s economy in the middle overs or pace’s economy at the death.",
    ]


@pytest.mark.parametrize(
    ("drift", "tail"),
    [
        (
            beside("in line with the drift"),
            "a step beside its drift is neither shown nor ruled out",
        ),
        (beside("beyond the drift", step=0.13), "beside its drift there is a step up"),
    ],
)
def test_a_change_has_its_second_verdict_in_the_same_breath(drift: Drift, tail: str):
    (line,) = answer(told(moved(-0.10, 0.03, drift=drift)), FORM)
    assert line.endswith(f"fell by about ten per cent, and {tail}.")


def test_a_change_whose_drift_can_t_be_tested_says_so():
    (line,) = answer(told(moved(-0.10, 0.03, drift=untested())), FORM)
    assert line.endswith(", though we can’t test whether it was already drifting.")


def test_the_answer_for_a_gap_and_a_turn():
    """The date comes last, however it was listed."""
    found = told(turn(), of=TURN) + told(gap_between(0.03, -0.07, -0.10, 0.03), of=GAP)
    first, second = answer(found, FORM, lambda _: EVENT)
    assert first == "Set against pace’s, spin’s economy went down about ten per cent."
    assert "between 2016 and 2017" in second


def test_it_begins_with_what_people_say_of_a_headline():
    item = Expectation(say="They were hit less", finding="b.economy.spin-middle", means="falls")
    of_none = item.model_copy(update={"finding": "b.fours"})
    found = told(moved(-0.10, 0.03, drift=beside("beyond the drift")))
    first, second = answer(found, FORM, lambda _: EVENT, [of_none, item])
    short = "Spin’s economy in the middle overs fell by about ten per cent."
    assert first == f"“They were hit less”? The data agree. {short}"
    assert answer(found, FORM, lambda _: EVENT, [of_none]) == [short, second]


def test_a_step_the_other_way_is_told_with_its_own_change():
    """Of what goes one way beside a step the other way no word is said for all."""
    with_it = moved(-0.10, 0.03, drift=beside("beyond the drift"))
    against = moved(-0.10, 0.03, values={}, drift=beside("beyond the drift", step=0.13))
    lines = answer(told(with_it, against), FORM)
    assert lines[1] == "And that’s not just an old trend carrying on."
    assert lines[2].endswith("and beside its drift there is a step up.")


def test_parts_of_a_mix_are_never_told_as_the_whole():
    """Neither who did it nor the rates alone is the number that held."""
    for kind in (Mix, Rates):
        (line,) = answer(told(part(kind, 0.01, 0.01, "held"), of=MIX), FORM)
        assert not line.startswith("Economy in the middle overs held")
        assert "mix" in line or "who was bowling" in line


def test_what_would_settle_it_is_asked_of_the_margin():
    """Twice as fine a change takes four times the matches; the change that was seen has no part."""
    open_one = moved(0.025, 0.1, "can't tell")
    open_one.told.detectable_change = 0.1
    needed = 40 * ((math.log(1.1) / math.log(1.05)) ** 2 - 1)
    assert more_matches(open_one) == round(needed)
    other = moved(0.001, 0.1, "can't tell")
    other.told.detectable_change = 0.1
    assert more_matches(other) == more_matches(open_one)
    assert answer(told(open_one), FORM)[-1] == (
        "About one hundred more matches on each side would show five per cent in the nearest of "
        "them."
    )
    hopeless = moved(0.0001, 0.1, "can't tell")
    hopeless.told.detectable_change = 0.6
    assert len(answer(told(hopeless), FORM)) == 1


def test_without_a_headline_the_answer_says_so():
    assert answer([], FORM) == ["No headline was chosen; each beat says what was found."]


UP, DOWN = beside("beyond the drift", step=0.13), beside("beyond the drift")
IN_LINE = beside("in line with the drift")


@pytest.mark.parametrize(
    ("means", "verdict", "change", "drift", "word"),
    [
        ("rises", "changed", 0.1, None, expected.AGREE),
        ("rises", "changed", 0.1, UP, expected.AGREE),
        ("rises", "changed", 0.1, IN_LINE, expected.NO_STEP),
        ("rises", "changed", 0.1, untested(), expected.UNTESTED),
        ("rises", "changed", 0.1, DOWN, expected.AGAINST_STEP),
        ("rises", "changed", -0.1, DOWN, expected.OTHER_WAY),
        ("rises", "held", 0.0, None, expected.DISAGREE),
        ("rises", "held", 0.0, UP, expected.STOOD),
        ("falls", "held", 0.0, UP, expected.DISAGREE),
        ("holds", "held", 0.0, None, expected.AGREE),
        ("holds", "held", 0.0, DOWN, expected.STOOD_STEP),
        ("holds", "changed", 0.1, None, expected.DISAGREE),
        ("falls", "can't tell", -0.1, IN_LINE, expected.CANT_SAY),
        ("falls", "can't tell", -0.1, DOWN, expected.STEPPED),
        ("steps up", "changed", 0.1, UP, expected.AGREE),
        ("steps up", "held", 0.0, DOWN, expected.OTHER_WAY),
        ("no step", "held", 0.0, DOWN, expected.DISAGREE),
        ("drifts up", "held", 0.0, IN_LINE, expected.AGREE),
        ("drifts down", "held", 0.0, IN_LINE, expected.OTHER_WAY),
        ("matters", "changed", 0.1, None, expected.AGREE),
        ("makes no difference", "changed", 0.1, None, expected.DISAGREE),
        ("higher", "changed", 0.1, None, expected.AGREE),
        ("alike", "can't tell", 0.1, None, expected.CANT_SAY),
    ],
)
def test_expected_against_found(
    means: Any, verdict: str, change: float, drift: Drift | None, word: str
):
    assert found_of(means, moved(change, 0.05, verdict, drift=drift)) == word


def test_why_nobody_can_say_is_told():
    lost = moved(0.06, 0.07, "can't tell", because="lost_among_many")
    why = "we tested forty numbers, which raises the bar"
    assert (
        found_of("rises", lost)
        == f"The data can’t say: it looks that way, but {why}, and it doesn’t clear that"
    )
    close = f"The data can’t say: {why}, and this is too close to call"
    assert found_of("falls", lost) == found_of("holds", lost) == close
    refused = moved(0.1, 0.1, "can't tell", refused="no_balls")
    assert found_of("rises", refused) == "The data can’t say: there is not a ball of it"
    alike = part(Mix, 0.0, 0.0, "can't tell", refused="mix_alike")
    never = "each had the same share before and after"
    assert found_of("matters", alike) == f"The data can’t say: {never}"
    said_of = of_kinds.breath(alike, MIX, ECONOMY, FORM, None)
    assert said_of == f"Economy in the middle overs, and who was bowling: {never}, so no figure."
    for drift, why in ((IN_LINE, "told from none"), (untested(), "tested"), (None, "tested")):
        found = found_of("steps up", moved(0.1, 0.05, "changed", drift=drift))
        assert found == f"The data can’t say: a step can’t be {why}"
    level = beside("in line with the drift", slope=slope(0.001))
    for drift, why in ((level, "told from none"), (untested(), "tested")):
        found = found_of("drifts up", moved(0.1, 0.05, "changed", drift=drift))
        assert found == f"The data can’t say: its drift can’t be {why}"


def test_a_move_inside_the_margin_is_said_as_that():
    inside = moved(0.02, 0.01, "held", because="moved_within_margin")
    assert found_of("rises", inside) == expected.INSIDE
    assert found_of("falls", inside) == expected.DISAGREE


def test_no_count_of_matches_settles_a_date_that_is_searched_for():
    """Its sides are wherever the break is; and what could be seen is of a date that is known."""
    blind = turn("can't tell", because="interval_too_wide")
    blind.told.detectable_change = 0.1
    assert more_matches(blind) is None
    assert not any("more matches" in line for line in answer(told(blind, of=TURN), FORM))
