"""A second verdict says what its printed interval says: beyond the drift, beyond the control."""

from __future__ import annotations

import copy
from typing import Any

import numpy as np
import pytest
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.contracts.finding import Change
from pipeline.contracts.over_time import ControlCheck
from pipeline.significance.printed import about, of_log
from pipeline.significance.second_family import judge_control, judge_drift
from tests.finding_makers import change, drift, effect, step_test
from tests.look_makers import (
    LOOK,
    RATE,
    SCALES,
    at_level,
    found,
    leaves_none_out,
    question,
    told_of,
)

STEP = st.tuples(st.floats(-0.3, 0.3), st.floats(0.005, 0.2), st.integers(8, 20))
PLACE = st.tuples(st.integers(1, 3), st.booleans())  # in so many beats; a headline or not
Step = tuple[float, float, int]


def drifting(identity: str, at: int, step: Step) -> Change:
    """A change whose step beside its drift is of the log, with its error and degrees."""
    value, se, df = step
    p = float(2 * scipy.stats.t.sf(abs(value) / se, df))
    test = step_test(p=p, se=se, df=float(df))
    test.step = of_log(float(np.expm1(value)), se, df, 0.95)
    return change(identity, drift=drift(test=test), asks=question("m", at))


@given(steps=st.lists(st.tuples(STEP, PLACE), min_size=1, max_size=8), alpha=RATE)
@settings(max_examples=60, deadline=None)
def test_a_step_is_beyond_the_drift_exactly_where_its_interval_leaves_none_out(steps, alpha):
    made: list[tuple[Change, Step]] = []
    headlines = []
    for at, (step, (beats, headline)) in enumerate(steps):
        ids = [f"b{beat}.m.c{at}" for beat in range(beats)]
        made += [(drifting(identity, at, step), step) for identity in ids]
        headlines += ids[-1:] if headline else []
    judge_drift([each for each, _ in made], headlines, alpha)
    for each, step in made:
        test = each.drift.test
        beyond, lost = leaves_none_out(test.step), leaves_none_out(about(*step, 1 - alpha))
        assert each.drift.verdict == ("beyond the drift" if beyond else "in line with the drift")
        assert each.drift.because == (
            "step_beyond_chance"
            if beyond
            else "step_lost_among_many"
            if lost
            else "step_within_chance"
        )
        assert test.level >= 1 - alpha
    chosen = sum(headline for _, (_, headline) in steps)
    sizes = {size for size in (chosen, len(steps) - chosen) if size}
    assert {each.drift.family_size for each, _ in made} == sizes
    one_answer([(each.asks.look, each.drift) for each, _ in made], len(steps))


def one_answer(judged: list[tuple[str, Any]], count: int) -> None:
    """So many questions, each with one answer in every beat that shows it."""
    answers: dict[str, Any] = {}
    for asked, told in judged:
        assert answers.setdefault(asked, told) == told
    assert len(answers) == count


CONTROLS = st.lists(st.tuples(LOOK, PLACE), min_size=1, max_size=3)


@given(looks=st.lists(CONTROLS, min_size=1, max_size=3), alpha=RATE)
@settings(max_examples=60, deadline=None)
def test_a_change_is_beyond_its_control_exactly_where_that_interval_leaves_none_out(looks, alpha):
    """One change held against three controls is three looks, each with a verdict of its own."""
    made: list[Change] = []
    headlines = []
    for at, controls in enumerate(looks):
        for place, (look, (beats, headline)) in enumerate(controls):
            measure = "rates" if look.measure == "rates" else "shares"
            beyond = found(look._replace(measure=measure))[2]
            for beat in range(beats):
                check = ControlCheck(name="another", effect=copy.deepcopy(beyond))
                asked = question(measure, at, f"Cup {place}")
                identity = f"b{place}{beat}.{measure}.c{at}"
                kind = SCALES[measure].kind
                made.append(change(identity, asks=asked, control=check, kind=kind))
            headlines += [made[-1].id] if headline else []
    judge_control(made, headlines, alpha)
    for each in made:
        told = each.control
        beyond = leaves_none_out(told_of(each, told.effect)[0])
        lost = leaves_none_out(at_level(each, told.effect, 1 - alpha))
        assert told.verdict == ("beyond the control" if beyond else "in line with the control")
        assert told.because == (
            "beyond_chance" if beyond else "lost_among_many" if lost else "within_chance"
        )
        assert told.effect.level >= 1 - alpha
        assert each.again is None  # which is of the first verdict
    count = sum(len(controls) for controls in looks)
    one_answer([(each.asks.identity, each.control) for each in made], count)


def test_a_change_against_two_controls_has_a_verdict_beside_each():
    """Well beyond one of them and not beyond the other, whichever is asked first."""
    beyond, within = effect(-0.05, p=0.001), effect(0.001, p=0.9)
    for order in ((beyond, within), (within, beyond)):
        made = [
            change(
                f"b{at}.economy",
                asks=question("economy", 0, f"Cup {at}"),
                control=ControlCheck(name="another", effect=copy.deepcopy(told)),
            )
            for at, told in enumerate(order)
        ]
        judge_control(made, [], 0.05)
        assert [each.control.verdict == "beyond the control" for each in made] == [
            told is beyond for told in order
        ]


def test_a_lost_step_and_a_lost_control_are_no_wider_than_what_was_picked():
    """Three of ten are picked at 5 %, so each is asked at 1.5 %, and the fourth is lost there."""
    p = [0.001] * 3 + [0.03] + [0.9] * 6
    steps = [
        change(f"b.m.c{at}", drift=drift(test=step_test(p=each)), asks=question("m", at))
        for at, each in enumerate(p)
    ]
    judge_drift(steps, [], 0.05)
    assert steps[3].drift.because == "step_lost_among_many"
    assert [each.drift.test.level for each in steps[:5]] == pytest.approx([0.985] * 4 + [0.95])
    beside = [
        change(
            f"b.m.c{at}",
            control=ControlCheck(name="another", effect=effect(p=each)),
            asks=question("m", at),
        )
        for at, each in enumerate(p)
    ]
    judge_control(beside, [], 0.05)
    assert beside[3].control.because == "lost_among_many"
    assert [each.control.effect.level for each in beside[:5]] == pytest.approx([0.985] * 4 + [0.95])
