"""Looks of earlier builds for tests."""

from __future__ import annotations

from datetime import date
from typing import Any

from pipeline.contracts.finding import Change
from pipeline.contracts.ledger import EarlierLook
from tests.finding_makers import asks

DAY = date(2024, 5, 1)


def look(at: int = 0, **more: Any) -> EarlierLook:
    """A headline of economy, its windows told apart by `at`."""
    question = more.pop("asks", None) or asks(sides=((f"{2000 + at}",), ("2017",)))
    plain = {"value": -0.031, "p": 0.02, "p_held": 1.0, "p_step": 0.4}
    return EarlierLook(date=DAY, asks=question, **{"role": "headline", **plain, **more})


def as_look(finding: Change) -> EarlierLook:
    """What a ledger keeps of a headline, by its own hand."""
    effect = finding.effect
    return EarlierLook(
        date=DAY,
        role="headline",
        asks=finding.asks,
        p=effect.p if effect else None,
        p_held=min(1.0, 2 * effect.p_equal) if effect else None,
        p_step=finding.drift.test.p if finding.drift and finding.drift.test else None,
        p_control=finding.control.effect.p if finding.control else None,
    )
