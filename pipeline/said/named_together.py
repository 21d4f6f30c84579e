"""Names of one kind that stand together: all are meant, or each number has one of them in turn."""

from __future__ import annotations

from collections.abc import Sequence, Set
from itertools import pairwise
from typing import TYPE_CHECKING

from pipeline.said.pieces import Piece, Place, is_in
from pipeline.said.targets import SHARE, WINDOW
from pipeline.said.terms import Mention

if TYPE_CHECKING:
    from pipeline.said.number_heard import Heard

_BETWEEN = 2  # tokens that may stand between two of them


def named_together(
    chosen: Mention, own: Sequence[Mention], numbers: Sequence[Heard], piece: Piece
) -> frozenset[str]:
    """What the chosen one and those beside it name; windows only in the number's own clause."""
    values, begins, ends = chosen.values, chosen.begins, chosen.ends
    inside = {at for each in numbers for at in range(each.said.first, each.said.last)}
    alike = [
        each
        for each in own
        if (each.cut != WINDOW or is_in(each, piece)) and _is_strange(each) == _is_strange(chosen)
    ]
    for each in reversed(alike):
        if _are_beside(each.ends, begins, inside):
            values, begins = values | each.values, each.begins
    for each in alike:
        if _are_beside(ends, each.begins, inside):
            values, ends = values | each.values, each.ends
    return values


def in_turn(earlier: Sequence[Mention], place: Place) -> Mention | None:
    """Of several names that no number stands between, the one whose turn it is."""
    bare = [
        each
        for each in place.numbers[: place.at]
        if each.said.first > earlier[-1].ends and not each.plain
    ]
    several = [each for each in earlier if not _between(earlier, each, place.numbers)]
    apart = all(one.ends < two.begins for one, two in pairwise(several))
    if bare and apart and len(several) > len(bare):
        return several[len(bare)]
    return None


def _are_beside(ends: int, begins: int, inside: Set[int]) -> bool:
    """Whether hardly a word and no number stands between two names."""
    return ends <= begins <= ends + _BETWEEN and inside.isdisjoint(range(ends, begins))


def _is_strange(mention: Mention) -> bool:
    """Whether it is a measure that no topic has: 'humidity'."""
    return all(value.startswith("~") and value != SHARE for value in mention.values)


def _between(earlier: Sequence[Mention], mention: Mention, numbers: Sequence[Heard]) -> bool:
    """Whether a number stands between a name and the last one that is named."""
    return any(mention.ends <= each.said.first < earlier[-1].begins for each in numbers)
