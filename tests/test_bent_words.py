"""What is said of a step that is there beside a straight trend only, and of neighbours alike."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.contracts.finding import Finding
from pipeline.contracts.over_time import Bend
from pipeline.wording import second_verdict as words
from tests import finding_makers as make


def told(slope: bool, curve: bool, verdict: str = words.BEYOND, **more: Any):
    """A finding whose step survives a change of slope, and a curve, or not."""
    shapes = (("slope change", slope), ("quadratic", curve))
    bends = [Bend(shape=shape, survives=kept, p=0.01 if kept else 0.2) for shape, kept in shapes]
    test = make.step_test(bends=bends, breakdown=0.004, **more)
    return make.change(effect=make.effect(-0.1, -0.45), drift=make.drift(verdict, test=test))


@pytest.mark.parametrize(
    ("slope", "curve", "said"),
    [
        (True, True, None),
        (False, True, "But if the trend itself turned just then, we couldn’t call it a step."),
        (True, False, "But if the trend itself was curving all along, we couldn’t call it a step."),
        (False, False, "But if the trend itself was bending, and not straight, we couldn’t"),
    ],
)
def test_a_step_that_hangs_on_a_straight_trend_is_said_to(slope: bool, curve: bool, said):
    line, short = said_of(told(slope, curve)), words.in_short(told(slope, curve))
    assert (said in line) if said else ("But if" not in line)
    assert ("if that ran straight" in short) == (said is not None)


def said_of(finding: Finding) -> str:
    return " ".join(words.drift_said(finding))


def test_of_a_step_that_is_not_told_nothing_more_is_taken_away():
    finding = told(False, False, words.IN_LINE)
    assert "But if" not in said_of(finding) and "straight" not in words.in_short(finding)


def test_the_numbers_name_likeness_where_it_is_worth_a_word():
    alike = words.numbers_behind(told(True, True, rho=0.45, factor=1.96))
    assert "(correlation 0.45), so its error is 1.40 times as wide" in alike
    assert "correlation" not in words.numbers_behind(told(True, True, rho=0.01, factor=1.04))
    assert "if the slope changes p = 0.010, if it curves p = 0.200" in words.numbers_behind(
        told(True, False)
    )
    assert "changed by 0.40% a year, every year" in alike
