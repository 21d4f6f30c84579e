"""What an event is said to have made: a change, a measure, the game; and words of being sure."""

from __future__ import annotations

import re

from pipeline.said.sounded import Sounded
from pipeline.said.targets import CONTROL, EVENT, WINDOW
from pipeline.said.up_or_down import way_of_word

_GROWS = {"grew", "grow", "grows", "grown", "growing", "longer", "long"}
_GAME = re.compile(
    r"\b(?:fours|sixes|runs?|wickets?|scoring|spin\w*|pace|quicks|seam\w*|bat(?:ter|ting|smen)\w*"
    r"|bowl(?:er|ing)\w*|boundar\w+|economy|rates?|overs|game|ball|innings|cricket|difference"
    r"|change|everything|dots?|averages?|slower|quicker|faster|figures|happened|none of (?:it"
    r"|this|that)|(?:did|does|done|doing|made|explains|behind|down to) (?:it|this|that)"
    r"|(?:that|it) (?:did|does)|did what)\b"
)
_BY_ITSELF = re.compile(r"(?:\b(?:work(?:ed|s)|transformed)|\bdid(?: that| it)?|for you|at work)$")
# What is said of the fact itself, and not of the event: 'without doubt it cut the fours'.
_SURE = re.compile(
    r"\b(?:without (?:a |any )?(?:doubt|question)|no (?:doubt|question)(?: about it)?|not only"
    r"|beyond (?:any |all )?doubt)\b"
)
_DATED = re.compile(r"\bbecause (?:that's|that is|it's|it is|that was|it was) (?:when|where)\b")


def surely(told: str) -> str:
    """Without words of being sure, which deny nothing; as long as it was."""
    return _SURE.sub(lambda match: " " * len(match.group()), told)


def is_dated(told: str) -> bool:
    """'We split it at 2017 because that's when the grass came in': why it was asked so."""
    return bool(_DATED.search(told))


def has_effect(told: str, heard: Sounded, begins: int, ends: int) -> bool:
    """Whether a sentence says what was made, outside the claim's own words."""
    if _BY_ITSELF.search(told[begins:ends]):
        return True
    rest = f"{told[:begins]} . {told[ends:]}"
    return bool(_GAME.search(rest)) or _names(heard, begins, ends) or _goes(heard, begins, ends)


def has_change(heard: Sounded, begins: int, ends: int) -> bool:
    """Whether a measure or a group is said to have changed, outside the claim's own words."""
    return _names(heard, begins, ends) and _goes(heard, begins, ends)


def _names(heard: Sounded, begins: int, ends: int) -> bool:
    return any(
        mention.cut not in (WINDOW, EVENT, CONTROL, "season")
        and not begins <= heard.tokens[mention.begins].begins < ends
        for mention in heard.mentions
    )


def _goes(heard: Sounded, begins: int, ends: int) -> bool:
    return any(
        token.text not in _GROWS
        and way_of_word(heard.tokens, at)
        and not begins <= token.begins < ends
        for at, token in enumerate(heard.tokens)
    )
