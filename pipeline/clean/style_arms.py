"""Whose arm a phrase of a bowling style is of, and what is nearly a word or a code of one."""

from __future__ import annotations

import re
from difflib import get_close_matches

from pipeline.clean.style_parts import in_codes
from pipeline.clean.style_words import (
    ARMS,
    EITHER_NAMES,
    LEFT_CODES,
    LEFT_NAMES,
    RIGHT_NAMES,
    STYLES,
)


def nearly(words: str, these: tuple[str, ...]) -> bool:
    """Whether a word of the phrase that nothing reads is nearly one of these."""
    for pattern in (r"unorth\w+", *(pattern for pattern, _, _ in STYLES)):
        words = re.sub(pattern, " ", words)
    left = [word for word in words.split() if word not in ARMS and len(word) > 2]
    return any(get_close_matches(word, these, 1, 0.75) for word in left)


def code_of(words: str) -> tuple[str, str] | None:
    """Of a short code, perhaps after its arm in full: 'sla', 'right arm ob', 'right arm m'."""
    arm = re.match(r"(right|left) arm ", words)
    code = words[arm.end() if arm else 0 :].replace(" ", "")
    if arm and not (in_codes(code) and _arm_of_code(code) == arm[1]):
        code = arm[1][0] + code
    return in_codes(code)


def _arm_of_code(code: str) -> str:
    return "left" if re.fullmatch(LEFT_CODES, code) else "right"


def arm_of(words: str, said: set[str], alone: set[str]) -> str | None:
    """The arm of a phrase: that it says, or that its name is of, or that the cell says.

    None where it is in doubt: both arms in one phrase, a slip of the pen, or a name of the other
    arm than the cell's.
    """
    own = said_arm(words)
    if len(set(re.findall(r"\b(?:left|right)\b", words))) > 1:
        return None
    if own:
        return None if alone and own not in alone else own
    if nearly(words, ARMS):
        return None
    named = named_arm(words)
    if named:
        return named if said <= {named} else None
    if not said and re.search(EITHER_NAMES, words):
        return "right"
    return only(said)


def said_arm(words: str) -> str | None:
    """The arm that a phrase or code says; not that its name is of."""
    said = set(re.findall(r"\b(?:left|right)\b", words))
    if said:
        return said.pop() if len(said) == 1 else None
    code = words.replace(" ", "")
    if in_codes(code) and not re.fullmatch(r"o[bs]+|lb[gs]?", code):
        return _arm_of_code(code)
    return None


def named_arm(words: str) -> str | None:
    """The arm that a style's name is of: an off-break is a right arm's."""
    if in_codes(words.replace(" ", "")):
        return _arm_of_code(words.replace(" ", ""))
    left, right = re.search(LEFT_NAMES, words), re.search(RIGHT_NAMES, words)
    if left and right:  # "orthodox off-spin" is said too
        return None
    return "left" if left else "right" if right else None


def only(arms: set[str]) -> str:
    return next(iter(arms)) if len(arms) == 1 else "unknown"
