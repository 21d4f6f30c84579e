"""The numbers of a sentence, in its order: each with its words, its value and what form it has."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pipeline.said.number_table import TIMES
from pipeline.said.spoken_number import read_value
from pipeline.said.spoken_places import order_at, ordinal_at, year_at
from pipeline.said.spoken_whole import Value
from pipeline.said.tokens import Token, text_at

Form = Literal["number", "share", "times", "year", "ordinal", "score", "overs", "odds"]
_MANY = 20  # parts of a whole, of which several are said as a share
# So many of them are how long it took, and no whole of which there is a part.
_STRETCHES = {"overs", "seasons", "years", "minutes", "days", "weeks", "innings", "hours", "months"}
_NO_SCORE = {"per", "%", "an", "overs", "percent", "runs", "balls", "point"}
_SINGULAR = {"ball", "boundary", "dot", "delivery", "match", "game", "over"}
_OUT_OF = re.compile(r"^(?:in|out of)(?: (?:every|each))?$")


@dataclass(frozen=True)
class Said:
    """`first` to `last` are positions of tokens, the last one left out; `step` the last digit."""

    first: int
    last: int
    value: float
    step: float
    form: Form = "number"
    whole: bool = True
    signed: bool = False


def read(tokens: Sequence[Token]) -> list[Said]:
    """Every number, in words or in figures, none within another."""
    found: list[Said] = []
    at = 0
    while at < len(tokens):
        said = _read_at(tokens, at)
        if said is None:
            at += 1
        else:
            found.append(said)
            at = said.last
    return found


def _read_at(tokens: Sequence[Token], at: int) -> Said | None:
    token = tokens[at]
    if token.kind == "sign" or token.text in ("o", "oh"):
        return None
    if year := year_at(tokens, at):
        return Said(at, year.end, year.value, year.step, "year")
    if every := _every_so_many(tokens, at):
        return every
    if place := ordinal_at(tokens, at):
        return Said(at, place.end, place.value, place.step, "ordinal")
    if token.text in TIMES and token.text != "halves":
        return Said(at, at + 1, TIMES[token.text], 0.1, "times", False)
    value = read_value(tokens, at)
    if value is None:
        return None
    return _longer(tokens, at, value) or _plain(tokens, at, value)


def _plain(tokens: Sequence[Token], at: int, value: Value) -> Said:
    """A number by itself: with its sign, a part of something, or half of what it was."""
    said_so = text_at(tokens, at - 1) if at else ""
    if said_so in ("minus", "plus") and value.value > 0:
        sign = -1 if said_so == "minus" else 1
        return Said(at, value.end, sign * value.value, value.step, "number", value.whole, True)
    signed = tokens[at].text[0] in "+-\N{MINUS SIGN}"
    is_share = not value.whole and 0 < value.value < 1 and tokens[at].kind == "word"
    share = is_share and value.step not in (0.1, 0.01, 0.001)
    form: Form = "share" if share else "number"
    if share and text_at(tokens, value.end) in ("what", "as", "its"):
        form = "times"
    return Said(at, value.end, value.value, value.step, form, value.whole, signed)


def _longer(tokens: Sequence[Token], at: int, value: Value) -> Said | None:
    """'one in five', '1/5', '240/6', 'four for thirty-two', 'seven overs and three balls'."""
    end, first = value.end, value.value
    if not value.whole or end >= len(tokens):
        return None
    if _is_noun(tokens, end) and text_at(tokens, end + 1) in ("in", "out"):
        end += 1  # 'one ball in thirteen'
    if text_at(tokens, end) == "wickets" and text_at(tokens, end + 1) == "for":
        end += 1  # 'four wickets for thirty-one'
    link = _link(tokens, end)
    if link is None:
        return _overs_and_balls(tokens, at, value)
    word, begins = link
    other = read_value(tokens, begins)
    if other is None or not other.whole or other.value < 1:
        return None
    if word == "/":
        return _slashed(at, first, other)
    if word in ("for", "off"):
        score = word == "off" or _is_score(tokens, first, other)
        return Said(at, other.end, first, 1.0, "score") if score else None
    return _odds(tokens, at, first, other)


def _odds(tokens: Sequence[Token], at: int, first: float, other: Value) -> Said | None:
    """'one in five'; 'twenty-four out of thirty-three' are a count and what it is of."""
    short = other.value <= _MANY and text_at(tokens, other.end) not in _STRETCHES
    if not (first == 1 or short) or not 0 < first < other.value <= 100:
        return None
    return Said(at, other.end, first / other.value, 1 / other.value, "odds", False)


def _is_noun(tokens: Sequence[Token], at: int) -> bool:
    """What may stand inside of odds: 'one ball in thirteen'."""
    word = text_at(tokens, at)
    plural = len(word) > 3 and word.isalpha() and word.endswith("s")
    return plural or word in _SINGULAR


def _link(tokens: Sequence[Token], at: int) -> tuple[str, int] | None:
    """What stands between two numbers that are one, and where the second begins."""
    if tokens[at].text in ("/", "for", "off"):
        return (tokens[at].text, at + 1) if at + 1 < len(tokens) else None
    for longest in (3, 2, 1):
        words = " ".join(text_at(tokens, each) for each in range(at, at + longest))
        if _OUT_OF.match(words) and at + longest < len(tokens):
            return "in", at + longest
    return None


def _slashed(at: int, first: float, other: Value) -> Said:
    """'1/5' is a part, '240/6' a score."""
    if first < other.value <= 20:
        return Said(at, other.end, first / other.value, 1 / other.value, "share", False)
    return Said(at, other.end, first, 1.0, "score")


def _is_score(tokens: Sequence[Token], first: float, other: Value) -> bool:
    """'four for thirty-two', and not 'four for ten overs'."""
    wickets = first <= 10 or other.value <= 10
    return wickets and text_at(tokens, other.end) not in _NO_SCORE


def _overs_and_balls(tokens: Sequence[Token], at: int, value: Value) -> Said | None:
    """'seven overs and three balls'."""
    end = value.end
    if text_at(tokens, end) not in ("over", "overs") or text_at(tokens, end + 1) != "and":
        return None
    balls = read_value(tokens, end + 2) if end + 2 < len(tokens) else None
    if balls is None or balls.value > 5 or text_at(tokens, balls.end) not in ("ball", "balls"):
        return None
    return Said(at, balls.end + 1, value.value + balls.value / 6, 1 / 6, "overs", False)


def _every_so_many(tokens: Sequence[Token], at: int) -> Said | None:
    """'Every eleventh ball'."""
    if not at or text_at(tokens, at - 1) != "every":
        return None
    value, end = order_at(tokens, at)
    if value < 2 or text_at(tokens, end) not in ("ball", "over", "delivery"):
        return None
    return Said(at, end, value, 1.0)
