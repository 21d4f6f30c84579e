"""Years and places in a row, in words or figures: 'twenty seventeen', 'the third', '4th'."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.number_table import ONES, ORDER, ORDINALS, TEENS, TENS
from pipeline.said.spoken_number import read_value
from pipeline.said.spoken_whole import Value
from pipeline.said.tokens import Token, text_at, word_at

_CENTURIES = ("nineteen", "twenty")
_DECADES = {"twenties", "thirties", "forties", "fifties", "sixties", "seventies", "eighties"}
_DECADES |= {"nineties", "tens", "hundreds"}


def year_at(tokens: Sequence[Token], at: int) -> Value | None:
    """'2017', '2017-18', 'two thousand and nine', 'twenty seventeen'."""
    token, end = tokens[at], at + 1
    if token.kind == "figure" and re.fullmatch(r"(?:19|20)\d\d", token.text):
        year = int(token.text)
        if text_at(tokens, end) in ("-", "–", "/") and re.fullmatch(
            r"\d\d|(?:19|20)\d\d", text_at(tokens, end + 1)
        ):
            end += 2
        return Value(year, 1.0, end)
    if token.text in _CENTURIES:
        return _spoken_year(tokens, at)
    if token.text == "two" and text_at(tokens, end) == "thousand":
        value = read_value(tokens, at)
        if value and 2001 <= value.value < 2050:
            return Value(value.value, 1.0, value.end)
    return None


def _spoken_year(tokens: Sequence[Token], at: int) -> Value | None:
    """'twenty seventeen', 'twenty twenty-four', 'nineteen oh five'; not 'twenty three'."""
    century = 1900 if tokens[at].text == "nineteen" else 2000
    second, third = text_at(tokens, at + 1), text_at(tokens, at + 2)
    if second == "oh" and third in ONES:
        return Value(century + ONES[third], 1.0, at + 3)
    if second in _DECADES:
        return Value(century, 1.0, at + 2)
    if second in TEENS:
        return Value(century + TEENS[second], 1.0, at + 2)
    if second in TENS:
        ones = ONES.get(third, 0)
        return Value(century + TENS[second] + ones, 1.0, at + 2 + bool(ones))
    return None


def order_at(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """The place that an ordinal from the second on names, and where it ends; 0 of none."""
    for words in (2, 1):
        named = tuple(word_at(tokens, each) for each in range(at, at + words))
        if value := ORDER.get(named):
            return value, at + words
    figure = tokens[at] if at < len(tokens) and tokens[at].kind == "figure" else None
    if figure and figure.text.isdigit() and word_at(tokens, at + 1) in ("st", "nd", "rd", "th"):
        return int(figure.text), at + 2
    return 0, at


def ordinal_at(tokens: Sequence[Token], at: int) -> Value | None:
    """'the third season', '4th'; a part as in 'a third' is read before."""
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    joined = after is not None and after.begins == token.ends
    if token.kind == "figure" and joined and after and after.text in ("st", "nd", "rd", "th"):
        return Value(float(token.text.replace(",", "")), 1.0, at + 2)
    if token.text in ORDINALS:
        return Value(0.0, 1.0, at + 1)
    if token.text in TENS and after and f"{token.text}-{after.text}" in ORDINALS:
        return Value(0.0, 1.0, at + 2)
    return None
