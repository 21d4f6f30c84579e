"""Names in a row without the words that all of them share with the first one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import takewhile

from pipeline.wording.other_ways import either

WHOLE = " overall"  # a name that ends so is of every place
PLACES = {"in", "at"}  # what a name may go on with after what it shares


def shared_once(named: Sequence[str], owned: str) -> list[str]:
    """'the run rate in overs 1 to 5 or 6 to 10'; 'pace’s economy or spin’s'.

    Neighbours that share their start up to a place, or are somebody's `owned` measure, make one
    name; of any others a listener could not tell what was left out.
    """
    runs: list[list[str]] = []
    for name in named:
        if runs and all(_rest(other, name, owned) for other in runs[-1]):
            runs[-1].append(name)
        else:
            runs.append([name])
    return [_run(run, owned) for run in runs]


def _run(names: Sequence[str], owned: str) -> str:
    """The first whole; of the others the place, unless one is another owner's: then each owner."""
    first, *others = names
    places = [_place(first, other) for other in others]
    if not all(places):
        places = [_whose(other, owned) for other in others]
    return either([first, *(place for place in places if place)])


def _rest(first: str, other: str, owned: str) -> str | None:
    """What is left of the other name beside the first; None where nothing may be left out."""
    return _place(first, other) or (_whose(first, owned) and _whose(other, owned))


def _place(first: str, other: str) -> str | None:
    """'at the death', '6 to 10': where the other is, if the names differ in that alone."""
    if first.endswith(WHOLE) or other.endswith(WHOLE):
        return None
    one, two = first.split(), other.split()
    shared = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(one, two, strict=False)))
    for start in range(shared, 0, -1):
        places = len(one) > start and len(two) > start and {one[start], two[start]} <= PLACES
        if one[start - 1] == "overs" or places:
            return " ".join(two[start:])
    return None


def _whose(name: str, owned: str) -> str | None:
    """'spin’s at the death', of spin’s `owned` measure there."""
    found = re.fullmatch(rf"(\S+’s) {re.escape(owned)}( .*)?", name)
    return f"{found[1]}{found[2] or ''}" if found else None
