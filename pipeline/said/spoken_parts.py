"""Parts in words and signs: 'two thirds', 'four and a half', '½', 'point nought nine'."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.said.number_table import DIGITS, FRACTIONS, LARGE, ONES, PARTS, PLACES, TEENS, TENS
from pipeline.said.spoken_whole import Value, cardinal_at
from pipeline.said.tokens import Token, word_at

# What follows a part, and no place: 'down by a twelfth on before'.
_NO_PLACE = {"", "of", "on", "in", "since", "lower", "higher", "less", "more", "fewer", "cheaper"}
_NO_PLACE |= {"dearer", "down", "up", "after", "off", "from", "and", "tighter"}
_FROM_TEN = {*TEENS, *TENS}
_EACH_OVER = {("an", "over"), ("every", "over"), ("per", "over"), ("each", "over")}
_PART_OF = {"of", "half", "and", "quarter", "quarters", "third", "thirds", "tenth", "tenths"}
_WHOLE = {"full", "whole", "good", "clear", "solid", "further"}


def part_at(tokens: Sequence[Token], at: int) -> Value | None:
    """'half', 'a quarter', 'two thirds', 'half a million' not being one; 'a run and a half'."""
    return _one_run(tokens, at) or _one_part(tokens, at) or _several_parts(tokens, at)


def _one_run(tokens: Sequence[Token], at: int) -> Value | None:
    """'a full run', 'a run an over'."""
    first, second, third, fourth = (word_at(tokens, at + more) for more in range(4))
    if first == "a" and second in _WHOLE and third in ("run", "ball", "boundary", "point"):
        return Value(1.0, 1.0, at + 2)
    each = (third, fourth) in _EACH_OVER and word_at(tokens, at - 1) not in _PART_OF
    return Value(1.0, 1.0, at + 1) if (first, second) == ("a", "run") and each else None


def _one_part(tokens: Sequence[Token], at: int) -> Value | None:
    """'half', 'a full fifth', 'a tenth of a million', 'a run and a half'."""
    first, second, third = (word_at(tokens, at + more) for more in range(3))
    if first == "half" and not (second in ("a", "an") and third in LARGE):
        return Value(0.5, 0.5, at + 1, False)
    if first in ("a", "an") and second in _WHOLE and PARTS.get(third, 1) > 1:
        return Value(1 / PARTS[third], 1 / PARTS[third], at + 3, False)
    if first not in ("a", "an", "one") or (second in PLACES and third not in _NO_PLACE):
        return None
    if PARTS.get(second, 1) > 1:
        large = LARGE.get(word_at(tokens, at + 4))
        if large and third == "of" and word_at(tokens, at + 3) in ("a", "an"):
            return Value(large / PARTS[second], large / PARTS[second], at + 5)
        return Value(1 / PARTS[second], 1 / PARTS[second], at + 2, False)
    part = PARTS.get(word_at(tokens, at + 4))
    if part and third == "and" and word_at(tokens, at + 3) == "a":
        return Value(1 + 1 / part, 1 / part, at + 5, False)
    return None


def _several_parts(tokens: Sequence[Token], at: int) -> Value | None:
    """'two thirds'."""
    first, second = word_at(tokens, at), word_at(tokens, at + 1)
    if first in ONES and second.endswith("s") and PARTS.get(second, 1) > 2:
        return Value(ONES[first] / PARTS[second], 1 / PARTS[second], at + 2, False)
    return None


def written_part(tokens: Sequence[Token], at: int, whole: float) -> Value | None:
    """'½', and that of '4½'."""
    found = FRACTIONS.get(word_at(tokens, at))
    if found is None:
        return None
    sign = -1 if whole < 0 else 1
    return Value(whole + sign * found[0] / found[1], 1 / found[1], at + 1, False)


def after_point(tokens: Sequence[Token], at: int, whole: float) -> Value | None:
    """'point nought nine', 'point eleven'; None where no digits are said."""
    if word_at(tokens, at) != "point":
        return None
    digits, end = "", at + 1
    while word_at(tokens, end) in DIGITS:
        digits, end = f"{digits}{DIGITS[word_at(tokens, end)]}", end + 1
    if not digits and word_at(tokens, end) in _FROM_TEN:
        found = cardinal_at(tokens, end)
        digits, end = (str(int(found.value)), found.end) if found else ("", end)
    if not digits:
        return None
    return Value(float(f"{int(whole)}.{digits}"), 10.0 ** -len(digits), end, False)


def and_part(tokens: Sequence[Token], found: Value) -> Value | None:
    """'four and a half', 'two and three quarters'."""
    if word_at(tokens, found.end) != "and":
        return None
    many, part = word_at(tokens, found.end + 1), PARTS.get(word_at(tokens, found.end + 2))
    if part is None or (many not in ("a", "an") and many not in ONES):
        return None
    return Value(found.value + ONES.get(many, 1) / part, 1 / part, found.end + 3, False)
