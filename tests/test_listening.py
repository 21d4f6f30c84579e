"""What hears the sentences can hear a lie: words of one finding, held against another."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from pipeline.contracts.finding import Finding, Player, Turn, control_of, drift_of
from pipeline.contracts.parts import Span
from pipeline.wording import of_kinds
from tests.any_findings import Case
from tests.any_kinds import any_case
from tests.hearing import all_wrong
from tests.listening import heard
from tests.word_makers import EVENT, FORM


def lies(case: Case) -> dict[str, Finding]:
    """Findings of other numbers or verdicts, of which what is said of this one is not true."""
    finding = case.finding
    if finding.refused or isinstance(finding, Player | Turn):
        return {}
    swapped = {"changed": "held", "held": "changed", "can't tell": "changed"}
    found = {"verdict": replace(finding, verdict=swapped[finding.verdict])}
    if "lost_among_many" in finding.because:
        found["family"] = replace(finding, family_size=finding.family_size + 1)
    if finding.verdict == "changed":
        effect = finding.told
        relative = effect.relative and mirrored(effect.relative)
        turned = replace(effect, difference=mirrored(effect.difference), relative=relative)
        found["the other way"] = replace(finding, effect=turned)
    drift = drift_of(finding)
    if drift and drift.test:
        beyond = drift.because == "step_beyond_chance"
        because = "step_within_chance" if beyond else "step_beyond_chance"
        found["step"] = replace(finding, drift=replace(drift, because=because))
        slope = replace(drift.test.slope, low=-1.0, high=-0.5)
        if drift.test.slope.way >= 0:
            test = replace(drift.test, slope=slope)
            found["drift"] = replace(finding, drift=replace(drift, test=test))
    if (control := control_of(finding)) and control.because != "within_chance":
        found["control"] = replace(finding, control=replace(control, because="within_chance"))
    return found


def mirrored(span: Span) -> Span:
    """The same the other way."""
    return Span(value=-span.value, low=-span.high, high=-span.low)


@given(st.integers(0, 2**32 - 1))
@settings(max_examples=15, deadline=None)
def test_a_lie_is_heard(seed: int):
    """The same words, of a finding that they are not true of."""
    rng = Random(seed)
    for case in (any_case(rng) for _ in range(40)):
        text = " ".join(of_kinds.said(*case, FORM, EVENT))
        for lie, finding in lies(case).items():
            assert all_wrong(text, case._replace(finding=finding)), (lie, text)


@pytest.mark.parametrize(
    ("words", "value"),
    [
        ("five point nought five", 5.05),
        ("four and a half", 4.5),
        ("a third", 1 / 3),
        ("eight and two thirds", 8 + 2 / 3),
        ("half a", 0.5),
        ("twenty-eight", 28),
        ("one hundred and twenty", 120),
        ("fourteen thousand seven hundred and forty-one", 14_741),
        ("two million three hundred thousand and five", 2_300_005),
        ("nought point six", 0.6),
        ("−7.2", -7.2),
        ("5,359.8", 5_359.8),
    ],
)
def test_numbers_are_heard_as_they_are_said(words: str, value: float):
    (found,) = heard(f"between {words} per cent").numbers
    assert found.value == pytest.approx(value)
