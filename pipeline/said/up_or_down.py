"""Which way a number is said to go: up or down, in verbs, nouns and comparatives."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.number_table import SMALL
from pipeline.said.tokens import Token

_UP = """up rose rise rises risen rising higher more increase increased increases increasing gained
gain gains gaining climbed climb climbs climbing grew grow grows grown jumped jump jumps dearer
costlier extra added adds add lifted leapt soared upward upwards worse longer raised bigger above
swelled ballooned shot hiked expensive larger rocketed surged inflated"""
_DOWN = """down fell fall falls fallen falling lower fewer less decrease decreased decreases
decreasing dropped drop drops dropping lost lose loses losing shed shrank shrunk shrink shrinks slid
slipped cheaper saved saves saving tighter cut cuts declined decline declines dipped dip tumbled
reduction reduced reduces loss downward downwards below trimmed plunged sank sunk
plummeted slumped smaller knocked shaved stingier meaner behind thriftier"""
UP = set(_UP.split())
DOWN = set(_DOWN.split())
_NOT = re.compile(r"n't$|^(?:not|never|no|without|neither|nor|cannot)$")
AFTER = {"up", "down", "lower", "higher", "fewer", "more", "less", "cheaper", "dearer", "extra"}
AFTER |= {"tighter", "costlier", "longer", "above", "below", "expensive"}
# Of two that are set side by side.
COMPARED = {"more": 1, "extra": 1, "dearer": 1, "fewer": -1, "less": -1, "cheaper": -1}
# Words that are no direction here: 'more than luck', 'up to sixteen', 'down to the data'.
_THAN = {"than"}
_HEDGED = {"more", "less", "higher", "lower", "fewer", "up"}


def way_of_word(tokens: Sequence[Token], at: int) -> int:
    """1 of a word that says up, -1 of one that says down, 0 of others."""
    word, after = tokens[at].text, _text(tokens, at + 1)
    if word in _HEDGED and after in _THAN:
        return 0
    if word in ("fell", "fall", "falls", "falling") and _text(tokens, at - 1).startswith("wicket"):
        return 0
    if word in ("more", "less") and _text(tokens, at - 1) == "or":
        return 0  # 'three or more'
    if word == "up" and after == "to":
        return 1 if _text(tokens, at - 1) in GOING else 0
    if word == "up" and _text(tokens, at - 1) in ("made", "make", "makes", "end", "ended", "split"):
        return 0
    if word == "down" and _text(tokens, at - 1) in (
        "sent",
        "send",
        "put",
        "set",
        "broken",
        "break",
    ):
        return 0
    if word in ("cut", "cuts") and after in ("both", "it"):
        return 0
    if word in ("more", "less") and after in ("or", "likely", "often", "wickets", "matches"):
        return (-1 if word == "more" else 1) if after == "often" else 0
    return (word in UP) - (word in DOWN)


GOES = {"went", "goes", "gone", "going", "go", "crept", "moved", "came", "climb", "climbed", "get"}
GOES |= {"moves", "move", "comes", "come", "got", "gets", "drifted", "edged", "pushed", "creeps"}
GOING = {*GOES, "cent", "over", "and", "was", "is", "balls", "runs", "points", "half", "from"}


_MOVED = {("came", "off"): -1, ("comes", "off"): -1, ("went", "on"): 1, ("goes", "on"): 1}
_HOW_FAR = (["is", "how", "much"], ["is", "how", "far"])
_WARDS = {"upwards", "downwards", "upward", "downward"}
_STOPS = {"to", "and", "or", "than", "so", "then", "but", "which", "that", "that's", "it's"}


def way_after(tokens: Sequence[Token], begins: int, ends: int) -> int:
    """The way that follows a number and its unit: 'down', 'fewer', 'cheaper', 'a season up'."""
    if [token.text for token in tokens[begins : begins + 3]] in _HOW_FAR:
        begins += 3
    phrase = (_text(tokens, begins), _text(tokens, begins + 1))
    if phrase in _MOVED:
        return _MOVED[phrase]
    if _text(tokens, begins) == "," and _text(tokens, begins + 1) in _WARDS:
        return (_text(tokens, begins + 1) in UP) - (_text(tokens, begins + 1) in DOWN)
    for at in range(begins, min(ends, begins + 3)):
        if tokens[at].kind == "sign" and tokens[at].text not in ("-",):
            return 0
        word = tokens[at].text
        if word in AFTER and (way := (word in UP) - (word in DOWN)):
            if word in ("up", "down") and at + 1 < len(tokens) and _leads_on(tokens[at + 1]):
                return 0
            return way
        if word in _STOPS:
            return 0
    return 0


def _leads_on(token: Token) -> bool:
    """'up to', 'up 8.4 points': of what follows."""
    return token.text == "to" or token.kind == "figure" or token.text in SMALL


def way_before(tokens: Sequence[Token], begins: int, ends: int) -> tuple[int, bool]:
    """The nearest way that is said before a number, and whether it is denied."""
    for at in range(ends - 1, begins - 1, -1):
        if way := way_of_word(tokens, at):
            return way, is_denied(tokens, at)
    return 0, False


def is_denied(tokens: Sequence[Token], at: int) -> bool:
    """'did not fall', 'never fell': a verb that is said not to be so."""
    for each in range(at - 1, max(-1, at - 4), -1):
        if tokens[each].kind == "sign" and tokens[each].text != "-":
            return False
        if tokens[each].text in ("only", "just", "can't", "cannot", "couldn't", "more"):
            return False
        if _NOT.search(tokens[each].text):
            return _text(tokens, each + 1) not in ("only", "just", "quite")
    return False


def _text(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""
