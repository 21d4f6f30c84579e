"""A text whose names of groups are masked, for patterns that ask where they stand, or must not."""

from __future__ import annotations

from collections.abc import Set

from pipeline.said.sounded import Sounded
from pipeline.said.targets import NO_GROUPS


def masked(told: str, heard: Sounded, sign: str, kept: Set[str] = frozenset()) -> str:
    """A `sign` stands for every letter of a group's name, but of cuts that are `kept`."""
    for each in heard.mentions:
        if each.cut not in NO_GROUPS | kept:
            begins, ends = heard.tokens[each.begins].begins, heard.tokens[each.ends - 1].ends
            told = told[:begins] + sign * (ends - begins) + told[ends:]
    return told
