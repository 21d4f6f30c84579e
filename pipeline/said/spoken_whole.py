"""A whole number in words, read from where it begins, and the shape of any number that is read."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from pipeline.said.number_table import LARGE, ONES, SMALL, TENS
from pipeline.said.tokens import Token, word_at


class Value(NamedTuple):
    """`step` is the last digit said: 0.1 of 4.5, a half of 'four and a half'; `end` a position."""

    value: float
    step: float
    end: int
    whole: bool = True  # no part and no digits after the point


def coarsest(value: float) -> float:
    """The last digit of a whole number that is not nought: 100 of 400, 1 of 41."""
    step, whole = 1, abs(int(value))
    while whole and whole % (step * 10) == 0:
        step *= 10
    return float(step)


def cardinal_at(tokens: Sequence[Token], at: int) -> Value | None:
    """'forty three', 'a hundred and six', 'three hundred and fourteen thousand'."""
    total, group, end, seen = 0, 0, at, False
    if word_at(tokens, at) in ("a", "an", "half"):
        return _large_one(tokens, at)
    last = ""
    while end < len(tokens):
        word = word_at(tokens, end)
        if word in SMALL:
            if last and not _goes_on(last, word):
                break
            group, seen = group + SMALL[word], True
        elif word == "hundred" and seen and last in SMALL:
            group *= 100
        elif word in LARGE and seen and last != word:
            total, group = total + group * LARGE[word], 0
        elif word == "and" and last in LARGE and word_at(tokens, end + 1) in SMALL:
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
    """Whether a word is of the same number as the last: 'forty three', and not 'three forty'."""
    return (last in TENS and word in ONES) or last in LARGE or last == "and"


def _large_one(tokens: Sequence[Token], at: int) -> Value | None:
    """'a hundred', 'half a million', 'a hundred and six'."""
    half = word_at(tokens, at) == "half"
    first = at + (2 if half and word_at(tokens, at + 1) in ("a", "an") else 1)
    word = word_at(tokens, first)
    if word not in LARGE or (half and first == at + 1):
        return None
    value, end = LARGE[word] * (0.5 if half else 1.0), first + 1
    if word_at(tokens, end) == "and" and (more := _cardinal_after(tokens, end + 1)):
        return Value(value + more.value, more.step, more.end)
    return Value(value, float(LARGE[word]) / (2 if half else 1), end)


def _cardinal_after(tokens: Sequence[Token], at: int) -> Value | None:
    return cardinal_at(tokens, at) if word_at(tokens, at) in SMALL else None
