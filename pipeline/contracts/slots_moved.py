"""What moved under a kept script: its slots, as they were when it was written and as they are."""

from __future__ import annotations

from typing import Literal

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Verdict

# What is said differs; the number does, and is said alike; which way it went; no fact has the id;
# the fact has no such form; nothing is known of before. `second`: the verdict on drift or control.
SlotMove = Literal["said", "value", "direction", "verdict", "second", "gone", "no form", "new"]


class SlotReading(Contract, kw_only=True):
    """A slot at one time: what it says, the number as it is shown, its finding's verdicts."""

    said: str
    shown: str
    verdict: Verdict | None
    second: str | None


class SlotMoved(Contract, kw_only=True):
    """A slot that is not as it was, with its place; `instead` is what may be meant by what is gone.

    `was` is none of a slot that was written since, `now` of one that can't be filled.
    """

    line: int
    column: int
    fact: str
    form: str
    moves: list[SlotMove]
    was: SlotReading | None
    now: SlotReading | None
    instead: str = ""


class ScriptMoved(Contract, kw_only=True):
    """A kept script against today's numbers: of so many slots, those that moved, in their order."""

    topic: str
    file: str
    slots: int
    moved: list[SlotMoved]
