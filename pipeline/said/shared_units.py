"""A unit that is said once for several numbers: 'from four and a half to four an over'."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.said.number_heard import Heard
from pipeline.said.tokens import Token
from pipeline.said.units import COUNTED

FAR = 9  # tokens between two numbers of one unit
_ONES_OF = (["of", "them"], ["of", "those"], ["of", "these"])
_LINKS = {"→", "to", "and", "or", "-", "–", "up", "down", "then", "sorry", "no", "of"}


def share_units(tokens: Sequence[Token], numbers: list[Heard]) -> list[Heard]:
    """A unit that is said once is that of the number before it, or of those that follow."""
    found = list(numbers)
    for at in range(len(found) - 2, -1, -1):
        each, then = found[at], found[at + 1]
        part = each.said.form == "share" and then.unit == "seasons"
        if (
            each.unit is None
            and not each.plain
            and then.unit
            and not part
            and _linked(tokens, each, then)
        ):
            found[at] = replace(each, unit=then.unit, a_time=then.a_time)
    found = _of_them(tokens, found)
    last: Heard | None = None
    for at, each in enumerate(found):
        if each.unit is None and last and not each.plain and each.said.form == "number":
            found[at] = replace(each, unit=last.unit)
        if each.unit and each.own_unit and not each.plain:
            last = each
    return found


def _of_them(tokens: Sequence[Token], numbers: Sequence[Heard]) -> list[Heard]:
    """'Thirteen comparisons, and six of them': counted as those are that were counted before."""
    found, counted = list(numbers), ""
    for at, each in enumerate(found):
        after = [token.text for token in tokens[each.said.last : each.said.last + 2]]
        whole = each.said.whole and each.said.value > 1
        if counted and whole and not each.own_unit and after in _ONES_OF:
            found[at] = replace(each, unit=counted, plain=False)
        if each.own_unit and each.unit in COUNTED:
            counted = each.unit
    return found


def _linked(tokens: Sequence[Token], each: Heard, then: Heard) -> bool:
    """Whether two numbers stand in one breath."""
    between = {token.text for token in tokens[each.ends : then.said.first]}
    near = then.said.first - each.ends <= FAR
    if near and between & {"up", "down"} and not between & {"to", "from"}:
        return False  # '35.5 to 43.8, up 8.4 points'
    return near and not between & {".", ";", "?", "!", ":"} and bool(between & _LINKS)
