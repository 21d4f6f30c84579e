"""Which way a number is said to go: up or down, in verbs, nouns and comparatives."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.number_table import SMALL
from pipeline.said.tokens import Token, text_at
from pipeline.said.word_lists import words

_WAYS = {**dict.fromkeys(words("ways.up"), 1), **dict.fromkeys(words("ways.down"), -1)}
_FOLLOWING = frozenset(words("ways.following"))
GOES = frozenset(words("ways.goes"))
DRIVES = frozenset(words("ways.drives"))
_LAYS = frozenset(words("ways.lays"))
_NOT = re.compile(r"n't$|^(?:not|never|no|without|neither|nor|cannot)$")
# Of two that are set side by side.
COMPARED = {"more": 1, "extra": 1, "dearer": 1, "fewer": -1, "less": -1, "cheaper": -1}
# What stands beside words that are no direction then: 'up to sixteen', 'three or more'.
_HEDGED = {"more", "less", "higher", "lower", "fewer", "up"}
_SIZES, _NO_MORE = {"more", "less"}, {"or", "likely", "wickets", "matches"}
_UP_FROM = {*GOES, "cent", "over", "and", "was", "is", "balls", "runs", "points", "half", "from"}
_IS = {"is", "was", "are", "were"}
_FILLS = frozenset(words("ways.fills"))
_DONE_UP = frozenset(words("ways.done_up"))
_SENT = {"sent", "send", "put", "set", "broken", "break"}
_FALLS = {"fell", "fall", "falls", "falling"}
_GROWS, _SINCE = {"grew", "grow", "grown", "grows"}, {"since", "after", "when", "once", "let"}
# What follows a number and says which way it goes.
_MOVED = {("came", "off"): -1, ("comes", "off"): -1, ("went", "on"): 1, ("goes", "on"): 1}
_HOW_FAR = (["is", "how", "much"], ["is", "how", "far"])
_WARDS = {"upwards", "downwards", "upward", "downward"}
_STOPS = {"to", "and", "or", "than", "so", "then", "but", "which", "that", "that's", "it's"}


def way_of_word(tokens: Sequence[Token], at: int) -> int:
    """1 of a word that says up, -1 of one that says down, 0 of others."""
    way = _WAYS.get(tokens[at].text, 0)
    if not way or _is_no_direction(tokens, at):
        return 0
    return -way if tokens[at].text in _SIZES and text_at(tokens, at + 1) == "often" else way


def _is_no_direction(tokens: Sequence[Token], at: int) -> bool:
    """'More than luck', 'up to sixteen', 'made up of', 'wickets fell'."""
    word, before, after = tokens[at].text, text_at(tokens, at - 1), text_at(tokens, at + 1)
    if word in _HEDGED and after == "than":
        return True
    if word in _SIZES:
        return before == "or" or after in _NO_MORE
    if word == "up" and before in _DONE_UP:
        return True
    if word == "up":
        filled = before in _FILLS and after not in ("by", "from")
        return before not in _UP_FROM if after == "to" else filled
    if word == "down":
        return before in _SENT
    if word in _FALLS:
        return before.startswith("wicket")
    if word in _GROWS:  # 'since the trees grew'
        return any(text_at(tokens, each) in _SINCE for each in range(at - 4, at))
    return word in ("cut", "cuts") and after in ("both", "it")


def way_after(tokens: Sequence[Token], begins: int, ends: int) -> int:
    """The way that follows a number and its unit: 'down', 'fewer', 'cheaper', 'a season up'."""
    if [token.text for token in tokens[begins : begins + 3]] in _HOW_FAR:
        begins += 3
    phrase = (text_at(tokens, begins), text_at(tokens, begins + 1))
    if phrase[0] in ("off", "onto", "on") and _is_laid(tokens, begins):
        return -1 if phrase[0] == "off" else 1
    if phrase in _MOVED:
        return _MOVED[phrase]
    if text_at(tokens, begins) == "," and text_at(tokens, begins + 1) in _WARDS:
        return _WAYS[text_at(tokens, begins + 1)]
    for at in range(begins, min(ends, begins + 3)):
        if tokens[at].kind == "sign" and tokens[at].text != "-":
            return 0
        word = tokens[at].text
        if word in _FOLLOWING:
            set_beside = text_at(tokens, at - 1) in _IS and text_at(tokens, at + 1) == "than"
            if word in _HEDGED and set_beside:
                return 0  # 'a fall from 5.2 is more than luck'
            if word in ("up", "down") and at + 1 < len(tokens) and _leads_on(tokens[at + 1]):
                return 0
            return _WAYS[word]
        if word in _STOPS:
            return 0
    return 0


def _is_laid(tokens: Sequence[Token], at: int) -> bool:
    """'Took two points off the share', 'put a run on it': before the number."""
    words = [token.text for token in tokens[max(0, at - 9) : at]]
    return any(word in _LAYS for word in words)


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
            return text_at(tokens, each + 1) not in ("only", "just", "quite")
    return False
