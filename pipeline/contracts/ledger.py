"""A look of an earlier build: a comparison that was a headline, or expected, and what it gave."""

from __future__ import annotations

from datetime import date
from typing import Literal

from pipeline.contracts.base import Contract
from pipeline.contracts.comparison import Comparison

Role = Literal["headline", "expected"]


class EarlierLook(Contract, kw_only=True):
    """A line of a topic's ledger. Of a refused one nothing is known but that it was asked.

    `value` is the change as it was told then: a fraction, of a share points. The four p are those
    of the change, of its lying inside the margin, of its step beside the drift and of its being
    beyond the control, before any family; none where that was not asked.
    """

    date: date
    role: Role
    asks: Comparison
    value: float | None = None
    p: float | None = None
    p_held: float | None = None
    p_step: float | None = None
    p_control: float | None = None


class Version(Contract, kw_only=True):
    """Which one of its question a headline is, and how many other pairs of windows were tried."""

    number: int
    windows: int
