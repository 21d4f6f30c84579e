"""What an event is said to have made: a change, a measure, the game."""

from __future__ import annotations

import re

from pipeline.said.sounded import Sounded
from pipeline.said.targets import CONTROL, WHEN
from pipeline.said.up_or_down import way_of_word
from pipeline.said.word_lists import pattern, words

_NO_GROUPS = WHEN | {CONTROL}


def is_dated(told: str) -> bool:
    """'We split it at 2017 because that's when it came in': why it was asked so."""
    return bool(pattern(r"\b<dated>\b", "causes").search(told))


def has_effect(told: str, heard: Sounded, begins: int, ends: int) -> bool:
    """Whether a sentence says what was made, outside the claim's own words."""
    if pattern(r"\b<by_itself>$", "causes").search(told[begins:ends]):
        return True
    if pattern(r"^ (?:<told_before>)\b", "causes").search(told[ends:]):
        return True
    rest = f"{told[:begins]} . {told[ends:]}"
    made = pattern(r"\b<game>\b", "causes").search(rest)
    return bool(made) or _names(heard, begins, ends) or _goes(heard, begins, ends)


def has_change(heard: Sounded, begins: int, ends: int) -> bool:
    """Whether a measure or a group is said to have changed, outside the claim's own words."""
    return _names(heard, begins, ends) and _goes(heard, begins, ends)


def is_of_the_topic(heard: Sounded, begins: int, ends: int, lacking: bool = True) -> bool:
    """Whether a group, a measure or a stretch of overs is named between two characters.

    `lacking`: or a measure that no topic has, as crowds.
    """
    return any(
        mention.cut not in _NO_GROUPS
        and (lacking or not all(value.startswith("~") for value in mention.values))
        and begins <= heard.tokens[mention.begins].begins < ends
        for mention in heard.mentions
    )


def changes_there(told: str, heard: Sounded, begins: int, ends: int) -> bool:
    """Whether something of the topic, or the game, changes between two characters."""
    here = told[begins:ends]
    placed = [each for each in heard.mentions if each.cut not in (*_NO_GROUPS, "region")]
    grouped = any(begins <= heard.tokens[each.begins].begins < ends for each in placed)
    named = grouped or pattern(r"\b<game>\b", "causes").search(here)
    moved = pattern(r"\b(?:<stated.verbs>|<stated.moved>|<stated.comparatives>)\b", "stated")
    became = re.search(r"\b(?:became|become|becomes|got|turned) (?:\w+ )?\w+", here)
    goes = any(
        way_of_word(heard.tokens, at) and begins <= token.begins < ends
        for at, token in enumerate(heard.tokens)
    )
    return bool(named) and (goes or bool(became or moved.search(here)))


def _names(heard: Sounded, begins: int, ends: int) -> bool:
    return is_of_the_topic(heard, 0, begins) or is_of_the_topic(heard, ends, 10**9)


def _goes(heard: Sounded, begins: int, ends: int) -> bool:
    grows = words("causes.grows")
    return any(
        token.text not in grows
        and way_of_word(heard.tokens, at)
        and not begins <= token.begins < ends
        for at, token in enumerate(heard.tokens)
    )


def effects_of(told: str) -> list[re.Match[str]]:
    """Where a change that was told is spoken of again: 'that explains the fall'."""
    template = (
        r"\b(?:that|this|which|it)(?: (?:alone|really|all|surely|largely|fully))*"
        r" <explains> (?:(?:the|that|this|its|their|all of) )*(?:whole )?<changes>\b"
    )
    return list(pattern(template, "causes").finditer(told))
