"""What becomes of a number: its result, and the fact that it was held against."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from pipeline.contracts.script_check import Result
from pipeline.said.number_heard import Heard
from pipeline.said.targets import Target


class Judged(NamedTuple):
    """A result, with the fact it was held against where there is one."""

    result: Result
    target: Target | None = None
    end: float | None = None  # the end of its interval that is said, where it is one


def ends_apart(heard: Sequence[Heard], found: Sequence[Judged]) -> list[Judged]:
    """Of a range whose two ends are said to be the same end, the second goes the wrong way."""
    told = list(found)
    for each in heard:
        if each.pair is None or not each.pair.spread or each.pair.at == 0:
            continue
        one, two = found[each.pair.first], found[each.pair.last]
        same = one.end is not None and one.end == two.end and one.target is two.target
        if same and two.target and two.target.low != two.target.high:
            told[each.pair.last] = Judged("wrong direction", two.target)
    return told
