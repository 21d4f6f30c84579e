"""Whether a number is what was before or what is after, by its own words or by its neighbour's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from pipeline.said.targets import WINDOW
from pipeline.said.tokens import Token

if TYPE_CHECKING:
    from pipeline.said.number_heard import Heard

FAR = 9  # tokens between two numbers that are set against each other
_THEN = {"then", "became", "becomes"}  # one after the other
_ENDS = {".", ";", "?", "!", "while", "whereas", "but"}


def with_sides(tokens: Sequence[Token], numbers: Sequence[Heard]) -> list[Heard]:
    """Of two that are set against each other, the one that says nothing is the other's opposite."""
    own = [_side(each) for each in numbers]
    found, led = list(own), [0] * len(numbers)
    for at in range(len(numbers) - 1):
        one, two = own[at], own[at + 1]
        if numbers[at].withdrawn:
            found[at + 1] = own[at + 1] = one if two is None else two
            continue
        if numbers[at + 1].leads == "from" and numbers[at + 1].way and not numbers[at].way:
            led[at] = numbers[at + 1].way  # 'forty-four, up from thirty-five'
        between = {token.text for token in tokens[numbers[at].ends : numbers[at + 1].said.first]}
        if one is None and two is None and between & _THEN:
            if _are_set(tokens, numbers[at], numbers[at + 1]):
                found[at], found[at + 1] = 0, 1
            continue
        if (one is None) == (two is None) or not _are_set(tokens, numbers[at], numbers[at + 1]):
            continue
        if one is None and two is not None and found[at] is None:
            found[at] = 1 - two
        elif two is None and one is not None:
            found[at + 1] = 1 - one
    return [
        replace(each, side=side, way=way, leads="to") if way else replace(each, side=side)
        for each, side, way in zip(numbers, found, led, strict=True)
    ]


def _side(heard: Heard) -> int | None:
    if heard.pair and not heard.pair.spread:
        return heard.pair.at
    if heard.leads == "from" and heard.way:
        return 0
    if WINDOW in heard.names and heard.names[WINDOW].level == 0:
        values = heard.names[WINDOW].values
        if len(values) == 1:
            return 1 if "after" in values else 0
    if heard.leads in ("to", "from") and heard.way:
        return 1 if heard.leads == "to" else 0
    return None


def _are_set(tokens: Sequence[Token], one: Heard, two: Heard) -> bool:
    """Whether nothing stands between that begins another thing, and both are of the same."""
    between = {token.text for token in tokens[one.ends : two.said.first]}
    if len(between) > FAR or between & _ENDS or one.plain or two.plain or one.unit != two.unit:
        return False
    return all(
        two.names[cut].values == named.values
        for cut, named in one.names.items()
        if cut != WINDOW and cut in two.names
    )
