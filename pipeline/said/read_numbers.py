"""The numbers of a sentence, in its order: each with its words, its value and what form it has."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pipeline.said.number_table import ONES, ORDINALS, TEENS, TENS, TIMES
from pipeline.said.spoken_number import Value, read_value
from pipeline.said.tokens import Token

Form = Literal["number", "share", "times", "year", "ordinal", "score", "overs", "odds"]
_CENTURIES = ("nineteen", "twenty")
_DECADES = {"twenties", "thirties", "forties", "fifties", "sixties", "seventies", "eighties"}
_DECADES |= {"nineties", "tens", "hundreds"}
MANY = 20  # parts of a whole, of which several are said as a share
# So many of them are how long it took, and no whole of which there is a part.
_STRETCHES = {"overs", "seasons", "years", "minutes", "days", "weeks", "innings", "hours", "months"}
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
    if found := _year(tokens, at) or _ordinal(tokens, at):
        return found
    if token.text in TIMES and token.text != "halves":
        return Said(at, at + 1, TIMES[token.text], 0.1, "times", False)
    value = read_value(tokens, at)
    if value is None:
        return None
    return _longer(tokens, at, value) or _plain(tokens, at, value)


def _plain(tokens: Sequence[Token], at: int, value: Value) -> Said:
    said_so = _text(tokens, at - 1) if at else ""
    if said_so in ("minus", "plus") and value.value > 0:
        sign = -1 if said_so == "minus" else 1
        return Said(at, value.end, sign * value.value, value.step, "number", value.whole, True)
    signed = tokens[at].text[0] in "+-\N{MINUS SIGN}"
    is_share = not value.whole and 0 < value.value < 1 and tokens[at].kind == "word"
    share = is_share and value.step not in (0.1, 0.01, 0.001)
    form: Form = "share" if share else "number"
    if share and _text(tokens, value.end) in ("what", "as", "its"):
        form = "times"
    return Said(at, value.end, value.value, value.step, form, value.whole, signed)


def _longer(tokens: Sequence[Token], at: int, value: Value) -> Said | None:
    """'one in five', '1/5', '240/6', 'four for thirty-two', 'seven overs and three balls'."""
    end, first = value.end, value.value
    if not value.whole or end >= len(tokens):
        return None
    if _is_noun(tokens, end) and _text(tokens, end + 1) in ("in", "out"):
        end += 1  # 'one ball in thirteen'
    if _text(tokens, end) == "wickets" and _text(tokens, end + 1) == "for":
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
        is_score = word == "off" or (
            (first <= 10 or other.value <= 10) and _ends_a_score(tokens, other.end)
        )
        return Said(at, other.end, first, 1.0, "score") if is_score else None
    follows = _text(tokens, other.end)
    if not (first == 1 or other.value <= MANY):
        return None  # 'twenty-four out of thirty-three' are a count and what it is of
    if 0 < first < other.value <= 100 and follows not in _STRETCHES:
        return Said(at, other.end, first / other.value, 1 / other.value, "odds", False)
    return None


def _is_noun(tokens: Sequence[Token], at: int) -> bool:
    word = _text(tokens, at)
    plural = len(word) > 3 and word.isalpha() and word.endswith("s")
    return plural or word in ("ball", "boundary", "dot", "delivery", "match", "game", "over")


def _link(tokens: Sequence[Token], at: int) -> tuple[str, int] | None:
    """What stands between two numbers that are one, and where the second begins."""
    if tokens[at].text in ("/", "for", "off"):
        return (tokens[at].text, at + 1) if at + 1 < len(tokens) else None
    for longest in (3, 2, 1):
        words = " ".join(_text(tokens, each) for each in range(at, at + longest))
        if _OUT_OF.match(words) and at + longest < len(tokens):
            return "in", at + longest
    return None


def _slashed(at: int, first: float, other: Value) -> Said:
    if first < other.value <= 20:
        return Said(at, other.end, first / other.value, 1 / other.value, "share", False)
    return Said(at, other.end, first, 1.0, "score")


def _ends_a_score(tokens: Sequence[Token], at: int) -> bool:
    """Whether no unit makes another thing of it: 'four for thirty-two', not 'for ten overs'."""
    return _text(tokens, at) not in ("per", "%", "an", "overs", "percent", "runs", "balls", "point")


def _overs_and_balls(tokens: Sequence[Token], at: int, value: Value) -> Said | None:
    end = value.end
    if _text(tokens, end) not in ("over", "overs") or _text(tokens, end + 1) != "and":
        return None
    balls = read_value(tokens, end + 2) if end + 2 < len(tokens) else None
    if balls is None or balls.value > 5 or _text(tokens, balls.end) not in ("ball", "balls"):
        return None
    return Said(at, balls.end + 1, value.value + balls.value / 6, 1 / 6, "overs", False)


def _year(tokens: Sequence[Token], at: int) -> Said | None:
    token, end = tokens[at], at + 1
    if re.fullmatch(r"(?:19|20)\d\d", token.text):
        year = int(token.text)
        if _text(tokens, end) in ("-", "–", "/") and re.fullmatch(
            r"\d\d|(?:19|20)\d\d", _text(tokens, end + 1)
        ):
            end += 2
        return Said(at, end, year, 1.0, "year")
    if token.text in _CENTURIES:
        return _spoken_year(tokens, at)
    if token.text == "two" and _text(tokens, end) == "thousand":
        value = read_value(tokens, at)
        if value and 2001 <= value.value < 2050:
            return Said(at, value.end, value.value, 1.0, "year")
    return None


def _spoken_year(tokens: Sequence[Token], at: int) -> Said | None:
    """'twenty seventeen', 'twenty twenty-four', 'nineteen oh five'; not 'twenty three'."""
    century = 1900 if tokens[at].text == "nineteen" else 2000
    second, third = _text(tokens, at + 1), _text(tokens, at + 2)
    if second == "oh" and third in ONES:
        return Said(at, at + 3, century + ONES[third], 1.0, "year")
    if second in _DECADES:
        return Said(at, at + 2, century, 1.0, "year")
    if second in TEENS:
        return Said(at, at + 2, century + TEENS[second], 1.0, "year")
    if second in TENS:
        ones = ONES.get(third, 0)
        return Said(at, at + 2 + bool(ones), century + TENS[second] + ones, 1.0, "year")
    return None


def _ordinal(tokens: Sequence[Token], at: int) -> Said | None:
    """'the third season', '4th'; a part as in 'a third' is read before."""
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    joined = after is not None and after.begins == token.ends
    if token.kind == "figure" and joined and after and after.text in ("st", "nd", "rd", "th"):
        return Said(at, at + 2, float(token.text.replace(",", "")), 1.0, "ordinal")
    if token.text in ORDINALS:
        return Said(at, at + 1, 0.0, 1.0, "ordinal")
    if token.text in TENS and after and f"{token.text}-{after.text}" in ORDINALS:
        return Said(at, at + 2, 0.0, 1.0, "ordinal")
    return None


def _text(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""
