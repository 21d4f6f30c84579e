"""A number in words or figures, read from where it begins: its value, how fine it is, its end."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.said.number_table import FRACTIONS, LARGE, SMALL
from pipeline.said.spoken_parts import after_point, and_part, part_at, written_part
from pipeline.said.spoken_whole import Value, cardinal_at, coarsest
from pipeline.said.tokens import Token, word_at
from pipeline.wording.script import LONGEST

_BEGIN = {*SMALL, *FRACTIONS, "a", "an", "half", "point"}  # words that may begin a number


def read_value(tokens: Sequence[Token], at: int) -> Value | None:
    """The number that begins here; none where none does."""
    if tokens[at].kind == "figure":
        return _figure(tokens, at)
    if tokens[at].text not in _BEGIN:
        return None
    if part := written_part(tokens, at, 0) or part_at(tokens, at):
        return part
    found = cardinal_at(tokens, at)
    if found is None:
        return after_point(tokens, at, 0) if word_at(tokens, at) == "point" else None
    return after_point(tokens, found.end, found.value) or and_part(tokens, found) or found


def _figure(tokens: Sequence[Token], at: int) -> Value:
    """'4.5', '3 million', '12k', '4½', '4 and a half'."""
    plain = tokens[at].text.replace(",", "").replace("\N{MINUS SIGN}", "-")
    decimals = len(plain.partition(".")[2])
    value, end, step = float(plain[:LONGEST]), at + 1, 10.0**-decimals
    if not decimals:
        step = coarsest(value)
    scale = word_at(tokens, at + 1)
    if scale in ("thousand", "million", "billion"):
        return Value(value * LARGE[scale], step * LARGE[scale], at + 2)
    if tokens[at].ends == _begins(tokens, end) and word_at(tokens, end) in ("k", "m"):
        large = 1_000 if word_at(tokens, end) == "k" else 1_000_000
        return Value(value * large, step * large, end + 1)
    found = Value(value, step, end, not decimals)
    if not decimals and (part := written_part(tokens, end, value)):
        return part
    return and_part(tokens, found) or found if not decimals else found


def _begins(tokens: Sequence[Token], at: int) -> int:
    return tokens[at].begins if at < len(tokens) else -1
