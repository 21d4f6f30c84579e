"""What a number is counted in: its unit as it is said, and a fact's, by one name."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from pipeline.said.number_table import SMALL
from pipeline.said.tokens import Token, tokens_of
from pipeline.said.up_or_down import COMPARED

A_BOUNDARY = "balls a boundary"
PER_CENT, POINTS, OVER = "per cent", "points", "an over"
_BETWEEN = {"more", "fewer", "extra", "less", "additional", "valid", "legal", "odd", "whole"}
_BETWEEN |= {
    "full",
    "different",
    "further",
    "other",
    "of",
    "such",
    "reasonable",
    "sensible",
    "fair",
    "separate",
}
_ONE_NAME = {
    **{"deliveries": "balls", "delivery": "balls", "ball": "balls", "run": "runs"},
    **{"games": "matches", "game": "matches", "match": "matches", "wicket": "wickets"},
    **{"boundary": "boundaries", "dots": "dot balls", "dot": "dot balls", "six": "sixes"},
    **{"comparison": "comparisons", "numbers": "comparisons", "tests": "comparisons"},
    **{"bowlers": "players", "bowler": "players", "batters": "players", "names": "players"},
    **{"player": "players", "seasons": "seasons", "season": "seasons", "years": "seasons"},
    **{
        "ways": "ways",
        "over": "overs",
        "tries": "comparisons",
        "attempts": "comparisons",
        "looks": "comparisons",
        "questions": "comparisons",
        "checks": "comparisons",
    },
    **{"spinners": "players", "quicks": "players", "batter": "players", "batsmen": "players"},
}
COUNTED = {"ways", "comparisons", "players"}  # one by one: of none is there a part
_THOSE = {"the", "those", "these", "our", "all"}
_PER = {"an", "a", "per", "every", "each"}
# What there is one of for each so many: of a rate.
_OF = {"over", "wicket", "innings", "match", "game", "hundred", "ball", "season", "year", "spell"}
_A_TIME = {"season", "year", "month", "quarter"}


class Unit(NamedTuple):
    """`name` is one for all ways to say it, `a_time` whether 'a season' follows; `last` a token."""

    name: str
    last: int
    a_time: bool = False
    foreign: bool = False  # a noun that no fact is counted in


def unit_after(tokens: Sequence[Token], at: int) -> Unit | None:
    """The unit that begins here, after a number; none where no unit is said."""
    if _text(tokens, at) in ("of", "in") and _text(tokens, at + 1) in ("a", "an"):
        at += 2
    elif _text(tokens, at) in ("a", "an") and _text(tokens, at + 1) not in _OF:
        at += 1  # 'half a run'
    elif _text(tokens, at) == "of" and _text(tokens, at + 1) in _THOSE:
        counted = _ONE_NAME.get(_text(tokens, at + 2), _text(tokens, at + 2))
        at += 2 if counted in COUNTED else 0  # 'thirty-three of the ways'
    at += _text(tokens, at) in _BETWEEN
    word, after = _text(tokens, at), _text(tokens, at + 1)
    if word in ("%", "percent", "pc") or (word, after) == ("per", "cent"):
        return _timed(tokens, PER_CENT, at + 1 + (word == "per"))
    if word in ("percentage", "%age") and after.startswith("point"):
        return _timed(tokens, POINTS, at + 2)
    if word in ("point", "points", "pts", "pp") and after not in SMALL:
        return _timed(tokens, POINTS, at + 1)
    if word in _PER and (per := _per(tokens, at)):
        runs = "runs " if per.name == "hundred balls" else ""  # '76.7 per hundred balls'
        return Unit(f"{runs}{_article(per.name)} {per.name}", per.last)
    return _noun(tokens, at)


def _timed(tokens: Sequence[Token], name: str, last: int) -> Unit:
    if _text(tokens, last) in _PER and _text(tokens, last + 1) in _A_TIME:
        return Unit(name, last + 2, True)
    return Unit(name, last)


def _noun(tokens: Sequence[Token], at: int) -> Unit | None:
    """'runs', 'runs an over', 'balls a wicket', 'dot balls'."""
    word = _text(tokens, at)
    if not word.isalpha() or tokens[at].kind != "word":
        return None
    name, last = _ONE_NAME.get(word, word), at + 1
    if name == "dot balls" and _text(tokens, last) in ("balls", "ball", "deliveries"):
        last += 1
    if name not in NOUNS:
        return None
    if _text(tokens, last) in COMPARED and _text(tokens, last + 1) in _PER:
        last += 1  # 'four runs fewer an over'
    if _text(tokens, last) == "off" and _text(tokens, last + 1) in _PER:
        last += 1  # 'half a run off every over'
    if _text(tokens, last) in _PER and (per := _per(tokens, last)):
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
    at += 1 + (_text(tokens, at) == "for")
    word = _text(tokens, at)
    if word == "100":
        word = "hundred"
    if word == "a" and _text(tokens, at + 1) == "hundred":
        word, at = "hundred", at + 1
    if word not in _OF:
        return None
    if word == "hundred":
        if _text(tokens, at + 1) not in ("balls", "deliveries"):
            return None
        return Unit("hundred balls", at + 2)
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


def _text(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""


_NO_NOUN = {"this", "plus", "versus", "does", "across", "towards", "always", "perhaps", "besides"}
_NO_NOUN |= {"sometimes", "unless", "inwards", "overs", "goes", "stays", "comes", "says", "its"}
_NO_NOUN |= {"stands", "moves", "bowls", "plays", "takes", "gives", "holds", "works", "falls"}
_NO_NOUN |= {"thats", "whats", "heres", "theres", "lets", "plus", "thus", "seamers", "pacers"}
_NO_NOUN |= {"looks", "makes", "means", "tells", "needs", "begins", "ends", "quicks", "spinners"}
# Nouns that numbers are counted in; what else follows a number is told apart elsewhere.
NOUNS = {*_ONE_NAME.values(), "boundaries", "sixes", "fours", "maidens", "wides", "extras"}
NOUNS |= {"catches", "centuries", "fifties", "hundreds", "partnerships", "stumpings", "singles"}


def foreign_unit(tokens: Sequence[Token], at: int) -> Unit | None:
    """A noun in the plural that stands right after a number and is none of ours."""
    word = _text(tokens, at)
    if word == "people":
        return Unit(word, at + 1, foreign=True)
    if (
        len(word) < 4
        or not word.isalpha()
        or not word.endswith("s")
        or word.endswith("ss")
        or word in _NO_NOUN
    ):
        return None
    if _text(tokens, at + 1) in _PER and (per := _per(tokens, at + 1)):
        return Unit(f"{_article(per.name)} {per.name}", per.last)  # of a measure of the topic's own
    return Unit(word, at + 1, foreign=True) if tokens[at].kind == "word" else None


def unit_before(tokens: Sequence[Token], first: int, last: int) -> Unit | None:
    """'a wicket every forty-five balls', 'seven balls in every hundred': told the other way."""
    own = unit_after(tokens, last)
    if own is None:
        return None
    near = [_text(tokens, at) for at in (*range(first - 10, first), *range(own.last, own.last + 5))]
    led = _text(tokens, first - 1) in ("every", "each", "per")
    if own.name == "balls" and led and {"boundary", "boundaries"} & set(near):
        return Unit(A_BOUNDARY, own.last)
    if own.name == "balls" and {"wicket", "wickets", "strike", "strikes"} & set(near):
        return Unit("balls a wicket", own.last)
    rest = [_text(tokens, at) for at in range(own.last, own.last + 4)]
    out_of = rest[:1] in (["in"], ["for"], ["per"]) or rest[:2] == ["out", "of"]
    if own.name in ("balls", "dot balls", "boundaries") and out_of and "hundred" in rest[1:]:
        return Unit(PER_CENT, own.last + rest.index("hundred") + 1)
    return None
