"""Whether a number is what was before or what is after, by its own words or by its neighbour's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from pipeline.said.subjects import CLAUSE, EARLIER, MEASURE
from pipeline.said.targets import WINDOW
from pipeline.said.tokens import Token

if TYPE_CHECKING:
    from pipeline.said.number_heard import Heard

_LONGEST = 9  # tokens between two numbers that are set against each other
_THEN = {"then", "became", "becomes"}  # one after the other
_BEGAN = {"started", "starts", "start", "began", "begins", "opened"}
_ENDED = {"ended", "ends", "end", "finished", "finishes", "closed"}
_ENDS = {".", ";", "?", "!", "while", "whereas", "but", "later", "still"}


def with_sides(tokens: Sequence[Token], numbers: Sequence[Heard]) -> list[Heard]:
    """Of two that are set against each other, the one that says nothing is the other's opposite."""
    own = [_by_verb(tokens, each) if _side(each) is None else _side(each) for each in numbers]
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
    found = [
        _of_all(each, numbers) if side is None else side
        for each, side in zip(numbers, found, strict=True)
    ]
    return [
        replace(each, side=side, way=way, leads="to") if way else replace(each, side=side)
        for each, side, way in zip(numbers, found, led, strict=True)
    ]


def _of_all(heard: Heard, numbers: Sequence[Heard]) -> int | None:
    """'Before it, spin went for 4.47 and pace for 4.73': the one window that a sentence names."""
    windows = {value for each in numbers if WINDOW in each.names
               for value in each.names[WINDOW].values}  # fmt: skip
    if WINDOW not in heard.names or len(windows) != 1 or heard.names[WINDOW].level > EARLIER:
        return None
    return int("after" in windows)


def _by_verb(tokens: Sequence[Token], heard: Heard) -> int | None:
    """'Started at 3.48', 'ended at 4.22', 'having had 56.2'."""
    led = [token.text for token in tokens[max(0, heard.said.first - 3) : heard.said.first]]
    if "having" in led or (led[-1:] in (["at"], ["on"], ["with"]) and _BEGAN & set(led)):
        return 0
    return 1 if led[-1:] in (["at"], ["on"], ["with"]) and _ENDED & set(led) else None


def _side(heard: Heard) -> int | None:
    """By its pair, by 'from' or 'to', or by the window that its clause names."""
    if heard.pair and not heard.pair.spread:
        return heard.pair.at
    if heard.leads == "from" and heard.way:
        return 0
    if WINDOW in heard.names and heard.names[WINDOW].level == CLAUSE:
        values = heard.names[WINDOW].values
        if len(values) == 1:
            return 1 if "after" in values else 0
    if heard.leads in ("to", "from") and heard.way:
        return 1 if heard.leads == "to" else 0
    return None


def _are_set(tokens: Sequence[Token], one: Heard, two: Heard) -> bool:
    """Whether nothing stands between that begins another thing, and both are of the same."""
    between = {token.text for token in tokens[one.ends : two.said.first]}
    if len(between) > _LONGEST or between & _ENDS or one.plain or two.plain or one.unit != two.unit:
        return False
    measured = [each.names[MEASURE].level == CLAUSE for each in (one, two) if MEASURE in each.names]
    if not one.names.keys() & {MEASURE} and measured == [True]:
        return False  # 'bowled 35.5 per cent of the overs and conceded 4.47'
    strange = one.names.get(MEASURE)
    if (
        strange
        and all(value.startswith("~") for value in strange.values)
        and (two.names.keys() - one.names.keys())
    ):
        return False  # 'the total slipped to 231, and spin went for 7.2'
    return all(
        two.names[cut].values == named.values
        for cut, named in one.names.items()
        if cut != WINDOW and cut in two.names
    )
