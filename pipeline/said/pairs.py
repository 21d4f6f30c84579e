"""Two numbers that are one: 'from four and a half to four point one', 'between one and sixteen'."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from pipeline.said.tokens import BREAKS, Token

if TYPE_CHECKING:
    from pipeline.said.number_heard import Heard

_LONGEST = 12  # tokens from the first number to the second
_SPREAD = {"between", "anywhere", "anything", "somewhere", "range", "ranges", "interval"}
_JOINS = {"and", "to", "up"}
_SIGNS = (["–"], ["-"])
_RANGES = (["from", "runs"], ["from", "ranges"], ["from", "stretches"])  # the nearest word first
_GOES_TO = (["→"], ["down", "to"], ["up", "to"], ["falling", "to"], ["rising", "to"])


class Pair(NamedTuple):
    """`at` is 0 of the first; `last` is the position of the second among the numbers.

    `spread` it is between two ends; else it goes from the one to the other.
    """

    at: int
    first: int
    last: int
    spread: bool


def pairs_of(tokens: Sequence[Token], numbers: Sequence[Heard]) -> list[Pair | None]:
    """Of each number the pair that it is of, if any."""
    found: list[Pair | None] = [None] * len(numbers)
    for at in range(len(numbers) - 1):
        one, two = numbers[at], numbers[at + 1]
        placed = one.said.form in ("ordinal", "year") and not two.plain
        if (one.plain and two.plain) or placed or found[at] is not None:
            continue
        spread = _is_pair(tokens, one, two)
        if spread is not None:
            found[at], found[at + 1] = Pair(0, at, at + 1, spread), Pair(1, at, at + 1, spread)
    return found


def _is_pair(tokens: Sequence[Token], one: Heard, two: Heard) -> bool | None:
    """Whether it is between two ends; None of no pair."""
    between = [token.text for token in tokens[one.ends : two.said.first]]
    if len(between) > _LONGEST or set(between) & {".", "?", "!", ";"}:
        return None
    before = _before(tokens, one.said.first)
    spread = bool(set(before) & _SPREAD)
    if between in _SIGNS or (spread and not _JOINS.isdisjoint(between)):
        return True
    if before[:2] in _RANGES:
        return True if "to" in between else None
    if "from" in before and "to" in between:
        return False
    if between in _GOES_TO:
        return False
    return True if between == ["to"] else None


def _before(tokens: Sequence[Token], at: int) -> list[str]:
    """The few words that lead to a number in its clause, the nearest first."""
    found: list[str] = []
    for each in range(at - 1, max(-1, at - 7), -1):
        if tokens[each].text in BREAKS:
            break
        found.append(tokens[each].text)
    return found
