"""Names in a row without the words that all of them share with the first one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import takewhile

PLACES = {"in", "at"}  # what a name may go on with after what it shares


def shared_once(named: Sequence[str], owned: str) -> list[str]:
    """'the run rate in overs 1 to 5', '6 to 10'; 'pace’s economy in the powerplay', 'spin’s'.

    Only where every name shares its start up to a place, or is somebody's `owned` measure: of any
    others a listener could not tell what was left out.
    """
    words = [name.split() for name in named]
    alike = takewhile(lambda column: len(set(column)) == 1, zip(*words, strict=False))
    shared = sum(1 for _ in alike)
    for start in range(shared, 0, -1):
        numbered = words[0][start - 1] == "overs"
        if numbered or all(len(each) > start and each[start] in PLACES for each in words):
            return [named[0], *(" ".join(each[start:]) for each in words[1:])]
    whose = [re.match(rf"(.+’s) {re.escape(owned)}\b(.*)", name) for name in named]
    if all(whose):
        return [named[0], *(f"{each[1]}{each[2]}" for each in whose[1:] if each)]
    return [*named]
