"""What a number is counted in: its unit as it is said, and a fact's, by one name."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from pipeline.said.number_table import SMALL
from pipeline.said.tokens import Token, text_at, tokens_of
from pipeline.said.up_or_down import COMPARED
from pipeline.said.word_lists import table, words

A_BOUNDARY = "balls a boundary"
PER_CENT, POINTS, OVER = "per cent", "points", "an over"
_BETWEEN = frozenset(words("units.between"))
_ONE_NAME = {word: name for name, each in table("units.one_name").items() for word in each.split()}
NOUNS = frozenset({*_ONE_NAME.values(), *words("units.nouns")})
_NO_NOUN = frozenset(words("units.no_noun"))
_OF_A_NAME = frozenset(words("units.of_a_name"))
COUNTED = {"ways", "comparisons", "players"}  # one by one: of none is there a part
_THOSE = {"the", "those", "these", "our", "all"}
_PER = {"an", "a", "per", "every", "each"}
_RATE_OF = frozenset(words("units.of_a_rate"))
_OFF = {"off", "from", "in", "for"}
_GETS_OUT = {"dismiss", "remove", "prise", "somebody", "someone", "batter", "batters"}
_WITHIN = 6  # tokens after a number in which it is told over how many wickets
_A_TIME = {"season", "year", "month", "quarter"}


class Unit(NamedTuple):
    """`name` is one for all ways to say it, `a_time` whether 'a season' follows; `last` a token."""

    name: str
    last: int
    a_time: bool = False
    foreign: bool = False  # a noun that no fact is counted in


def unit_after(tokens: Sequence[Token], at: int) -> Unit | None:
    """The unit that begins here, after a number; none where no unit is said."""
    led = [text_at(tokens, each) for each in range(at, at + 3)]
    if led == ["of", "a", "run"] and text_at(tokens, at + 3) not in _PER:
        return Unit(OVER, at + 3)  # '0.4 of a run cheaper'
    at = _past_links(tokens, at)
    word, after = text_at(tokens, at), text_at(tokens, at + 1)
    if word in ("%", "percent", "pc") or (word, after) == ("per", "cent"):
        return _timed(tokens, PER_CENT, at + 1 + (word == "per"))
    if word == "percentage" and after.startswith("point"):
        return _timed(tokens, POINTS, at + 2)
    if word in ("point", "points", "pts", "pp") and after not in SMALL:
        return _timed(tokens, POINTS, at + 1)
    if word in _PER and (per := _per(tokens, at)):
        runs = "runs " if per.name == "hundred balls" else ""  # '76.7 per hundred balls'
        return Unit(f"{runs}{_article(per.name)} {per.name}", per.last)
    return _noun(tokens, at)


def _past_links(tokens: Sequence[Token], at: int) -> int:
    """Where the unit begins: 'half a run', 'two more balls', 'thirty-three of the ways'."""
    if text_at(tokens, at) in ("of", "in") and text_at(tokens, at + 1) in ("a", "an"):
        at += 2
    elif text_at(tokens, at) in ("a", "an") and text_at(tokens, at + 1) not in _RATE_OF:
        at += 1
    elif text_at(tokens, at) == "of" and text_at(tokens, at + 1) in _THOSE:
        counted = _ONE_NAME.get(text_at(tokens, at + 2), text_at(tokens, at + 2))
        at += 2 if counted in COUNTED else 0
    return at + (text_at(tokens, at) in _BETWEEN)


def _timed(tokens: Sequence[Token], name: str, last: int) -> Unit:
    """'Points', 'points a season'."""
    if text_at(tokens, last) in _PER and text_at(tokens, last + 1) in _A_TIME:
        return Unit(name, last + 2, True)
    return Unit(name, last)


def _noun(tokens: Sequence[Token], at: int) -> Unit | None:
    """'runs', 'runs an over', 'balls a wicket', 'dot balls'."""
    word = text_at(tokens, at)
    if not word.isalpha() or tokens[at].kind != "word":
        return None
    if text_at(tokens, at + 1) in _OF_A_NAME and text_at(tokens, at + 2) != "of":
        return None  # 'boundary share', 'run-outs'
    name, last = _ONE_NAME.get(word, word), at + 1
    if name == "dot balls" and text_at(tokens, last) in ("balls", "ball", "deliveries"):
        last += 1
    if name not in NOUNS:
        return None
    return _rate(tokens, name, last)


def _rate(tokens: Sequence[Token], name: str, last: int) -> Unit | None:
    """A noun with what there is of it for each so many, if that follows: 'runs an over'."""
    if text_at(tokens, last) in COMPARED and text_at(tokens, last + 1) in _PER:
        last += 1  # 'four runs fewer an over'
    if text_at(tokens, last) == "off" and text_at(tokens, last + 1) in _PER:
        last += 1  # 'half a run off every over'
    if name == "runs" and text_at(tokens, last) in _OFF and (of := _per(tokens, last)):
        return Unit("runs a hundred balls", of.last) if of.name == "hundred balls" else None
    if text_at(tokens, last) in _PER and (per := _per(tokens, last)):
        if per.name in _A_TIME:
            return Unit(name, per.last, True)
        if per.name in ("innings", "spell"):
            return Unit(name, per.last)  # over which a difference is told
        if per.name == "hundred balls" and name in ("boundaries", "dot balls", "balls"):
            return Unit(PER_CENT, per.last)
        whole = OVER if (name, per.name) == ("runs", "over") else ""
        return Unit(whole or f"{name} {_article(per.name)} {per.name}", per.last)
    return Unit(name, last)


def _per(tokens: Sequence[Token], at: int) -> Unit | None:
    """'an over', 'per hundred balls': what follows 'an' or 'per'."""
    at += 1 + (text_at(tokens, at) == "for")
    at += text_at(tokens, at) == "single"
    word = text_at(tokens, at)
    if word == "100":
        word = "hundred"
    if word in ("a", "one", "every", "each") and text_at(tokens, at + 1) in ("hundred", "100"):
        word, at = "hundred", at + 1
    if word not in _RATE_OF:
        return None
    if word == "hundred":
        if text_at(tokens, at + 1) in ("balls", "deliveries"):
            return Unit("hundred balls", at + 2)
        ends = at + 1 >= len(tokens) or tokens[at + 1].kind == "sign"
        return Unit("hundred balls", at + 1) if ends else None
    return Unit("match" if word == "game" else word, at + 1)


def _article(noun: str) -> str:
    return "an" if noun[0] in "aeiou" else "a"


def unit_of(written: str) -> str:
    """The name of a fact's unit: 'runs an over' is 'an over', 'per cent of balls' 'per cent'."""
    plain = re.sub(r"^of \d+ ", "", written.partition(",")[0])
    found = unit_after(tokens_of(plain), 0)
    if found:
        return found.name
    per = re.search(r" (an? \w+)$", plain)
    return per[1] if per else plain


def foreign_unit(tokens: Sequence[Token], at: int) -> Unit | None:
    """A noun in the plural that stands right after a number and is none of ours."""
    word = text_at(tokens, at)
    if word == "people":
        return Unit(word, at + 1, foreign=True)
    if (
        len(word) < 4
        or not word.isalpha()
        or not word.endswith("s")
        or word.endswith("ss")
        or word in _NO_NOUN
        or word.endswith("wards")
    ):
        return None
    if text_at(tokens, at + 1) in _PER and (per := _per(tokens, at + 1)):
        return Unit(f"{_article(per.name)} {per.name}", per.last)  # of a measure of the topic's own
    return Unit(word, at + 1, foreign=True) if tokens[at].kind == "word" else None


def _is_of_ten_wickets(tokens: Sequence[Token], at: int) -> bool:
    """'Ten balls more for every ten wickets': over an innings, and not for one of them."""
    words = [text_at(tokens, each) for each in range(at, at + _WITHIN)]
    ten = next((words.index(each) for each in ("ten", "10") if each in words), len(words))
    led = ten > 0 and words[ten - 1] in ("every", "per", "each")
    return led and bool({"wickets", "they", "taken"} & set(words[ten + 1 : ten + 2]))


def unit_before(tokens: Sequence[Token], first: int, last: int) -> Unit | None:
    """'a wicket every forty-five balls', 'seven balls in every hundred': told the other way."""
    own = unit_after(tokens, last)
    if own is None:
        return None
    near = [
        text_at(tokens, at) for at in (*range(first - 10, first), *range(own.last, own.last + 5))
    ]
    led = text_at(tokens, first - 1) in ("every", "each", "per")
    if own.name == "balls" and led and {"boundary", "boundaries"} & set(near):
        return Unit(A_BOUNDARY, own.last)
    if own.name == "balls" and _is_of_ten_wickets(tokens, own.last):
        return Unit("balls", own.last)
    struck = led and {"out", "struck", "dismissed", "victim", "scalp"} & set(near)
    if own.name == "balls" and (struck or {"wicket", "wickets", "strike", "strikes"} & set(near)):
        return Unit("balls a wicket", own.last)
    rest = [text_at(tokens, at) for at in range(own.last, own.last + 4)]
    if own.name == "balls" and rest[0] == "to" and _GETS_OUT & set(rest):
        return Unit("balls a wicket", own.last)  # 'forty-five balls to get somebody out'
    out_of = rest[:1] in (["in"], ["for"], ["per"]) or rest[:2] == ["out", "of"]
    if own.name in ("balls", "dot balls", "boundaries") and out_of and "hundred" in rest[1:]:
        further = {"more", "fewer", "extra"} & {
            text_at(tokens, at) for at in range(last, own.last + 1)
        }
        return Unit(POINTS if further else PER_CENT, own.last + rest.index("hundred") + 1)
    return None
