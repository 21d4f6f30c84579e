"""The second verdicts, judged in their families: beyond the drift, beyond the control."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np

from pipeline.contracts.codes import ControlBecause, DriftBecause
from pipeline.contracts.finding import Finding, control_of, drift_of
from pipeline.contracts.over_time import StepTest
from pipeline.contracts.parts import Effect
from pipeline.significance.earlier import NONE, Counted
from pipeline.significance.methods.inference import benjamini_hochberg, holm
from pipeline.significance.methods.levels import Asked, holm_steps, of_change, picked_share
from pipeline.significance.methods.ratio import Floats
from pipeline.significance.printed import widen, widen_step
from pipeline.significance.verdicts import divided

STEPS: dict[ControlBecause, DriftBecause] = {
    "beyond_chance": "step_beyond_chance",
    "lost_among_many": "step_lost_among_many",
    "within_chance": "step_within_chance",
}


def judge_drift(
    findings: list[Finding], headlines: list[str], alpha: float, earlier: Counted = NONE
) -> None:
    """Set the second verdict of every finding whose drift could be tested, whatever the first."""

    def test_of(finding: Finding) -> StepTest | None:
        drift = drift_of(finding)
        return drift.test if drift else None

    def asked(finding: Finding) -> str:
        return finding.asks.look

    for finding, judged in _judged(findings, headlines, alpha, asked, test_of, earlier.steps):
        drift = drift_of(finding)
        if drift is None or drift.test is None:
            raise ValueError(f"{finding.id} was judged without a test")
        widen_step(drift.test, 1 - judged.rate)
        drift.p_adjusted, drift.family_size = judged.p_adjusted, judged.looks
        drift.verdict = "beyond the drift" if judged.made else "in line with the drift"
        drift.because = STEPS[judged.because]


def judge_control(
    findings: list[Finding], headlines: list[str], alpha: float, earlier: Counted = NONE
) -> None:
    """Set the verdict beside the control of every finding that has one, whatever the first.

    One change held against two controls is two looks. The steps of the gaps are a family by
    themselves.
    """

    def test_of(finding: Finding) -> Effect | None:
        control = control_of(finding)
        return control.effect if control else None

    def asked(finding: Finding) -> str:
        return finding.asks.identity

    for finding, judged in _judged(findings, headlines, alpha, asked, test_of, earlier.beyond):
        control = control_of(finding)
        if control is None:
            raise ValueError(f"{finding.id} was judged without a control")
        widen(control.effect, 1 - judged.rate)
        control.p_adjusted = judged.p_adjusted
        control.verdict = "beyond the control" if judged.made else "in line with the control"
        control.because = judged.because

    def step_of(finding: Finding) -> StepTest | None:
        control = control_of(finding)
        return control.step if control else None

    for finding, judged in _judged(findings, headlines, alpha, asked, step_of, NONE.steps):
        control = control_of(finding)
        if control is None or control.step is None:
            raise ValueError(f"{finding.id} was judged without a step beside its control")
        widen_step(control.step, 1 - judged.rate)
        control.step_because = STEPS[judged.because]


class Judged(NamedTuple):
    """A second verdict: whether it may be told, its interval's error rate, its family's looks."""

    p_adjusted: float
    made: bool
    rate: float
    because: ControlBecause
    looks: int


def _judged(
    findings: list[Finding],
    headlines: list[str],
    alpha: float,
    question: Callable[[Finding], str],
    test_of: Callable[[Finding], StepTest | Effect | None],
    earlier: Floats,
) -> Iterator[tuple[Finding, Judged]]:
    """Headlines by Holm, the others by Benjamini and Hochberg; one question is one look.

    `earlier` are the p of what earlier builds asked so of their headlines.
    """
    tested = [finding for finding in findings if test_of(finding)]
    families = divided(tested, headlines, question)

    def rows(p: Floats, alpha: float) -> Asked:
        return picked_share(p, alpha, alpha)

    ways = ((holm, holm_steps, earlier), (benjamini_hochberg, rows, np.array([])))
    for looks, (method, steps, more) in zip(families, ways, strict=True):
        p = np.array([test.p for look in looks if (test := test_of(look[0]))])
        every = np.append(p, more)
        adjusted, change = method(every), steps(every, alpha).of_first(len(p))
        rate = of_change(p, change, alpha)
        for at, look in enumerate(looks):
            made = bool(change.made[at])
            lost = not made and p[at] < alpha
            because: ControlBecause = "lost_among_many" if lost else "within_chance"
            one = Judged(
                float(adjusted[at]),
                made,
                float(rate[at]),
                "beyond_chance" if made else because,
                len(every),
            )
            for finding in look:
                yield finding, one
