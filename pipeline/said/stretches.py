"""Stretches of an innings as they are said: 'overs eleven to forty', 'the last ten overs'."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set

from pipeline.said.spoken_number import read_value
from pipeline.said.spoken_places import order_at
from pipeline.said.targets import OVERS
from pipeline.said.terms import Mention
from pipeline.said.tokens import Token
from pipeline.said.units import unit_after
from pipeline.said.up_or_down import way_of_word

_FIRST = {"first", "opening", "early"}
_LAST = {"last", "final", "closing", "end"}
_AT = {"in", "of", "from", "at", "by", "through", "the", "after", "until"}  # not 'just over two'
# 'Now at over seven' says how much it is, and not when.
_STANDS = {
    "is",
    "was",
    "are",
    "were",
    "now",
    "stands",
    "stood",
    "sits",
    "sat",
    "up",
    "down",
    "it's",
}
_STANDS |= {"rose", "fell", "went", "goes", "came", "still", "runs", "dropped", "climbed"}
_TO = {"to", "and", "-", "–", "through", "till", "until"}


def stretches(
    tokens: Sequence[Token], overs: int | None, known: Set[str] = frozenset()
) -> Iterator[Mention]:
    """`overs` are those of an innings; without them 'the last ten' names no stretch.

    `known` are the topic's own stretches, which are named without the word too: 'one to ten'.
    """
    for at, token in enumerate(tokens):
        named = token.text == "over" and _text(tokens, at - 1) in _AT
        if token.text == "overs" or (named and not is_hedge(tokens, at)):
            yield from _from_to(tokens, at)
        elif known and _text(tokens, at + 1):
            yield from _bare(tokens, at, known)
        if token.text in ("from", "after") and overs:
            yield from _from_on(tokens, at, overs)
        if token.text == "between" and overs:
            yield from _by_order(tokens, at, overs)
        if token.text in _FIRST or token.text in _LAST:
            yield from _end(tokens, at, overs)


def _from_on(tokens: Sequence[Token], at: int, overs: int) -> Iterator[Mention]:
    """'From the 41st over on'."""
    first, ends = order_at(tokens, at + 1 + (_text(tokens, at + 1) == "the"))
    first += tokens[at].text == "after"
    if 1 < first <= overs and _text(tokens, ends) == "over":
        on = _text(tokens, ends + 1) in ("on", "onwards", "onward")
        yield _stretch(at, ends + 1 + on, first, overs)


def _by_order(tokens: Sequence[Token], at: int, overs: int) -> Iterator[Mention]:
    """'Between the 16th and the 20th': overs, where nothing else is counted."""
    found: list[int] = []
    place = at + 1
    for _ in range(2):
        place += _text(tokens, place) == "the"
        value, ends = order_at(tokens, place)
        if not value or value > overs:
            return
        found.append(value)
        last = ends
        place = ends + (_text(tokens, ends) in ("and", "to"))
    if _text(tokens, last) in ("", ",", ".", ";", "over", "overs") and found[0] < found[1]:
        yield _stretch(at, last, found[0], found[1])


def is_hedge(tokens: Sequence[Token], at: int) -> bool:
    """Whether 'over' is 'more than': 'fell by over twenty per cent', 'is now at over seven'."""
    count = read_value(tokens, at + 1) if at + 1 < len(tokens) else None
    if tokens[at].text != "over" or count is None:
        return False
    unit = unit_after(tokens, count.end)
    if unit or not count.whole or _text(tokens, count.end) == "of":
        return unit is None or unit.name != "overs"
    led, before = _text(tokens, at - 1), tokens[max(0, at - 3) : at - 1]
    if led in ("by", "of"):
        return any(way_of_word(before, each) for each in range(len(before)))
    return led in ("at", "to", "from") and _text(tokens, at - 2) in _STANDS


def _from_to(tokens: Sequence[Token], at: int) -> Iterator[Mention]:
    first_at = at + 1 + (_text(tokens, at + 1) in ("from", "between", "number"))
    first = read_value(tokens, first_at) if first_at < len(tokens) else None
    if first is None or not first.whole or not 0 < first.value < 1000:
        return
    last = None
    if _text(tokens, first.end) in _TO and first.end + 1 < len(tokens):
        last = read_value(tokens, first.end + 1)
    if last and last.whole and last.value > first.value:
        yield _stretch(at, last.end, int(first.value), int(last.value))
    elif last is None and tokens[at].text == "over":
        yield _stretch(at, first.end, int(first.value), int(first.value))


def _bare(tokens: Sequence[Token], at: int, known: Set[str]) -> Iterator[Mention]:
    """'forty-one to fifty is the death': with no unit after it."""
    first = read_value(tokens, at)
    between = (
        _text(tokens, at - 1) == "between" and _text(tokens, first.end if first else at) == "and"
    )
    if first is None or not first.whole:
        return
    if not between and _text(tokens, first.end) not in _TO - {"and"}:
        return
    last = read_value(tokens, first.end + 1) if first.end + 1 < len(tokens) else None
    if last is None or not last.whole or unit_after(tokens, last.end):
        return
    if f"{int(first.value)}-{int(last.value)}" in known:
        yield _stretch(at, last.end, int(first.value), int(last.value))


def _end(tokens: Sequence[Token], at: int, overs: int | None) -> Iterator[Mention]:
    count = read_value(tokens, at + 1) if at + 1 < len(tokens) else None
    if count is None or not count.whole or not overs or not 0 < count.value <= overs:
        return
    end = count.end + (_text(tokens, count.end) in ("over", "overs"))
    round_one = count.value in (5, 10, 15, 20, 30, 40, 6) and not unit_after(tokens, end)
    if end == count.end and not round_one:
        return
    if tokens[at].text in _FIRST:
        yield _stretch(at, end, 1, int(count.value))
    else:
        yield _stretch(at, end, overs - int(count.value) + 1, overs)


def _stretch(begins: int, ends: int, first: int, last: int) -> Mention:
    return Mention(begins, ends, OVERS, frozenset({f"{first}-{last}"}))


def _text(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""
