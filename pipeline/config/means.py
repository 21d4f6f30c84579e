"""What people may expect of a finding, by what it compares; anything else is refused when read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.codes import Means

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind

IN_TIME: tuple[Means, ...] = ("rises", "falls", "holds")
OF_GROUPS: tuple[Means, ...] = ("higher", "lower", "alike")
OF_A_STEP: tuple[Means, ...] = ("steps up", "steps down", "no step", "drifts up", "drifts down")
OF_A_MIX: tuple[Means, ...] = ("matters", "makes no difference")


def means_of(beat: AnyKind, row: str) -> tuple[Means, ...]:
    """The expectations that a row of a beat can answer, its own words first.

    Of two groups 'rises' was the word for 'higher' once, and is still understood.
    """
    if beat.traits.compares == "groups":
        return (*OF_GROUPS, *IN_TIME)
    if row in beat.made_rows:
        return (*IN_TIME, *OF_A_MIX) if row == "mix" else IN_TIME
    drifts = beat.traits.drifts
    if drifts == "none" or (drifts == "whole" and row != "all"):
        return IN_TIME
    return (*IN_TIME, *OF_A_STEP)
