"""Where and when a thing stands that seems to do something, and does not: a place, a date."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from pipeline.said.caused import is_of_the_topic
from pipeline.said.word_lists import pattern

if TYPE_CHECKING:
    from pipeline.said.sounded import Sounded

_BESIDE = re.compile(r"\b(?:by|beside) (?:the )?\w+$")  # 'bowled by the sea': where it was
_ENDS = re.compile(r"\W*$|[,.;:—]| (?:than|and|but|or|is|was|were|are|which|that|who|in|at)\b")
_MORE_THAN = re.compile(r"\b(?:more|less|better|worse|harder)\b.*\bthan\b")


def is_of_itself(told: str, match: re.Match[str]) -> bool:
    """'The rules changed, and': what happened to it, and nothing that it did."""
    ends = re.match(r"\s*(?:[,.;:!]|$|and\b|but\b|in\b|at\b)", told[match.end() :])
    return bool(ends and pattern(r"\b<objects>$", "causes").search(match[0]))


def is_where(told: str, heard: Sounded, match: re.Match[str]) -> bool:
    """'Pace at the ground costs six': where a group is, and not what does something to it."""
    led = re.search(r"(\w+)(?:'s)? (?:on|at|in|by|near|along|off|to) $", told[: match.start()])
    of_groups = led and is_of_the_topic(heard, led.start(1), match.start())
    beside = _BESIDE.search(match[0]) and _ENDS.match(told[match.end() :])
    return bool(of_groups) or (bool(led or beside) and _is_placed(heard, match))


def _is_placed(heard: Sounded, match: re.Match[str]) -> bool:
    return any(
        each.cut == "region" and match.start() <= heard.tokens[each.begins].begins < match.end()
        for each in heard.mentions
    )


def is_a_price(told: str, heard: Sounded, match: re.Match[str]) -> bool:
    """'The hills save a side seven runs', 'help pace more than spin': what a place comes to."""
    if _is_placed(heard, match) and _MORE_THAN.search(told, match.end()):
        return True
    after = [each for each in heard.numbers if heard.tokens[each.said.first].begins > match.end()]
    costs = bool(after) and re.search(r"\b(?:cost|save)[sd]?$", match[0])
    return _is_placed(heard, match) and bool(
        costs or pattern(r"\b<yields>$", "causes").search(match[0])
    )


def is_when(told: str, heard: Sounded, match: re.Match[str]) -> bool:
    """'After the new rule spin bowls more': when a group did it, and not what made it do so."""
    dated = re.search(
        r"\b(?:before|after|until|since|with|under|on|in|during) (?:the )?(?:\w+ )?$",
        told[: match.start()],
    )
    return bool(dated) and is_of_the_topic(heard, *match.span())
