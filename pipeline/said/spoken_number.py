"""A number in words or figures, read from where it begins: its value, how fine it is, its end."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from pipeline.said.number_table import (
    DIGITS,
    FRACTIONS,
    LARGE,
    ONES,
    PARTS,
    PLACES,
    SMALL,
    TEENS,
    TENS,
)
from pipeline.said.tokens import Token
from pipeline.wording.script import LONGEST

# What follows a part, and no place: 'down by a twelfth on before'.
_NO_PLACE = {"", "of", "on", "in", "since", "lower", "higher", "less", "more", "fewer", "cheaper"}
_NO_PLACE |= {"dearer", "down", "up", "after", "off", "from", "and", "tighter"}


class Value(NamedTuple):
    """`step` is the last digit said: 0.1 of 4.5, a half of 'four and a half'; `end` a position."""

    value: float
    step: float
    end: int
    whole: bool = True  # no part and no digits after the point


def read_value(tokens: Sequence[Token], at: int) -> Value | None:
    """The number that begins here; none where none does."""
    if tokens[at].kind == "figure":
        return _figure(tokens, at)
    if part := _written_part(tokens, at, 0) or _part(tokens, at):
        return part
    found = _cardinal(tokens, at)
    if found is None:
        return _after_point(tokens, at, 0) if _word(tokens, at) == "point" else None
    return _after_point(tokens, found.end, found.value) or _and_part(tokens, found) or found


def _figure(tokens: Sequence[Token], at: int) -> Value:
    plain = tokens[at].text.replace(",", "").replace("\N{MINUS SIGN}", "-")
    decimals = len(plain.partition(".")[2])
    value, end, step = float(plain[:LONGEST]), at + 1, 10.0**-decimals
    if not decimals:
        step = coarsest(value)
    scale = _word(tokens, at + 1)
    if scale in ("thousand", "million", "billion"):
        return Value(value * LARGE[scale], step * LARGE[scale], at + 2)
    if tokens[at].ends == _begins(tokens, end) and _word(tokens, end) in ("k", "m"):
        large = 1_000 if _word(tokens, end) == "k" else 1_000_000
        return Value(value * large, step * large, end + 1)
    found = Value(value, step, end, not decimals)
    if not decimals and (part := _written_part(tokens, end, value)):
        return part
    return _and_part(tokens, found) or found if not decimals else found


def _written_part(tokens: Sequence[Token], at: int, whole: float) -> Value | None:
    """'½', and that of '4½'."""
    found = FRACTIONS.get(_word(tokens, at))
    if found is None:
        return None
    sign = -1 if whole < 0 else 1
    return Value(whole + sign * found[0] / found[1], 1 / found[1], at + 1, False)


def coarsest(value: float) -> float:
    """The last digit of a whole number that is not nought: 100 of 400, 1 of 41."""
    step, whole = 1, abs(int(value))
    while whole and whole % (step * 10) == 0:
        step *= 10
    return float(step)


def _cardinal(tokens: Sequence[Token], at: int) -> Value | None:
    """'forty three', 'a hundred and six', 'three hundred and fourteen thousand'."""
    total, group, end, seen = 0, 0, at, False
    if _word(tokens, at) in ("a", "an", "half"):
        return _large_one(tokens, at)
    last = ""
    while end < len(tokens):
        word = _word(tokens, end)
        if word in SMALL:
            if last and not _goes_on(last, word):
                break
            group, seen = group + SMALL[word], True
        elif word == "hundred" and seen and last in SMALL:
            group *= 100
        elif word in LARGE and seen and last != word:
            total, group = total + group * LARGE[word], 0
        elif word == "and" and last in LARGE and _word(tokens, end + 1) in SMALL:
            last, end = "and", end + 1
            continue
        else:
            break
        last, end = word, end + 1
    if not seen:
        return None
    value = float(total + group)
    return Value(value, coarsest(value), end)


def _goes_on(last: str, word: str) -> bool:
    return (last in TENS and word in ONES) or last in LARGE or last == "and"


def _large_one(tokens: Sequence[Token], at: int) -> Value | None:
    """'a hundred', 'half a million', 'a hundred and six'."""
    half = _word(tokens, at) == "half"
    first = at + (2 if half and _word(tokens, at + 1) in ("a", "an") else 1)
    word = _word(tokens, first)
    if word not in LARGE or (half and first == at + 1):
        return None
    value, end = LARGE[word] * (0.5 if half else 1.0), first + 1
    if _word(tokens, end) == "and" and (more := _cardinal_after(tokens, end + 1)):
        return Value(value + more.value, more.step, more.end)
    return Value(value, float(LARGE[word]) / (2 if half else 1), end)


def _cardinal_after(tokens: Sequence[Token], at: int) -> Value | None:
    return _cardinal(tokens, at) if _word(tokens, at) in SMALL else None


def _after_point(tokens: Sequence[Token], at: int, whole: float) -> Value | None:
    """'point nought nine', 'point eleven'; None where no digits are said."""
    if _word(tokens, at) != "point":
        return None
    digits, end = "", at + 1
    while _word(tokens, end) in DIGITS:
        digits, end = f"{digits}{DIGITS[_word(tokens, end)]}", end + 1
    if not digits and _word(tokens, end) in {**TEENS, **TENS}:
        found = _cardinal(tokens, end)
        digits, end = (str(int(found.value)), found.end) if found else ("", end)
    if not digits:
        return None
    return Value(float(f"{int(whole)}.{digits}"), 10.0 ** -len(digits), end, False)


def _and_part(tokens: Sequence[Token], found: Value) -> Value | None:
    """'four and a half', 'two and three quarters'."""
    if _word(tokens, found.end) != "and":
        return None
    many, part = _word(tokens, found.end + 1), PARTS.get(_word(tokens, found.end + 2))
    if part is None or (many not in ("a", "an") and many not in ONES):
        return None
    return Value(found.value + ONES.get(many, 1) / part, 1 / part, found.end + 3, False)


def _part(tokens: Sequence[Token], at: int) -> Value | None:
    """'half', 'a quarter', 'two thirds', 'half a million' not being one; 'a run and a half'."""
    first, second, third = (_word(tokens, at + more) for more in range(3))
    if first == "half" and not (second in ("a", "an") and third in LARGE):
        return Value(0.5, 0.5, at + 1, False)
    if first in ("a", "an", "one"):
        if second in PLACES and third not in _NO_PLACE:
            return None
        if second in PARTS and PARTS[second] > 1:
            large = LARGE.get(_word(tokens, at + 4))
            if large and third == "of" and _word(tokens, at + 3) in ("a", "an"):
                return Value(large / PARTS[second], large / PARTS[second], at + 5)
            return Value(1 / PARTS[second], 1 / PARTS[second], at + 2, False)
        if third == "and" and _word(tokens, at + 3) == "a" and _word(tokens, at + 4) in PARTS:
            part = PARTS[_word(tokens, at + 4)]
            return Value(1 + 1 / part, 1 / part, at + 5, False)
    if first in ONES and second in PARTS and second.endswith("s") and PARTS[second] > 2:
        return Value(ONES[first] / PARTS[second], 1 / PARTS[second], at + 2, False)
    return None


def _word(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) and tokens[at].kind == "word" else ""


def _begins(tokens: Sequence[Token], at: int) -> int:
    return tokens[at].begins if at < len(tokens) else -1
