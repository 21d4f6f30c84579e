"""Tempting sentences that the data do not carry, with their place in the order of warnings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import IntEnum
from typing import NamedTuple

from pipeline.contracts.finding import Finding


class Rank(IntEnum):
    """What a temptation gets wrong, the worst first."""

    CAUSE = 1
    ORDER = 2
    SCALE = 3
    PARTS = 4
    VERDICT = 5
    ROWS = 6


class Temptation(NamedTuple):
    """The sentence in quotes, then why not."""

    rank: Rank
    line: str


def rows_judged_apart(mine: Sequence[Finding]) -> Iterator[Temptation]:
    """Some rows changed and others did not."""
    if len(mine) > 1 and len({finding.verdict for finding in mine}) > 1:
        line = "“Only these rows changed.” Rows are judged one by one, not against another."
        yield Temptation(Rank.ROWS, line)
