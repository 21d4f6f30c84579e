"""Where a form can't agree with all that may fill its slots."""

from __future__ import annotations

import re
from collections.abc import Iterator

_ONE_OR_MANY = r"is|was|are|were|has|have|’s|comes|goes|stays|stands|holds|moves|swings|looks"
# What may not stand beside a slot, and what to do: 'sixes an innings' is many, 'the run rate' one.
_BESIDE: tuple[tuple[str, str], ...] = (
    (
        rf"\{{what\}}(?: |(?=’))(?:{_ONE_OR_MANY})\b",
        "{what} may be one or many: use a verb that fits both, such as 'came to'",
    ),
    (r"\b(?:the|an?|its) \{what\}", "{what} has its own article: take yours away"),
    (
        r"\b(?:a|an|of|by|from|about|some|than|up to) \{reach\}",
        "{reach} may be 'between …', 'anywhere …' or 'about …': put it after 'is', 'be' or a colon",
    ),
    (
        r"\b(?:about|nearly|some|of a|an?) \{(?:size|felt|margin|expected)\}",
        "this slot says 'about' or 'nearly' itself, or has no article: take the word away",
    ),
    (r"\{tested\} numbers\b", "{tested} has 'numbers' of its own: take yours away"),
    (r"\{matches\} (?!matches\b)", "{matches} is a count: let 'matches' follow it"),
    (r"\ban? \{(?!way|kind|per)\w+\}", "what fills this slot may begin with any letter: no 'a'"),
    (r"\{(?:over|where|here|there|swings)\}’", "this slot is an adverb: nothing can be its own"),
)
_FOUND = tuple((re.compile(pattern, re.IGNORECASE), message) for pattern, message in _BESIDE)


def disagreements(form: str) -> Iterator[str]:
    """Each place where the words beside a slot do not fit all that may fill it."""
    for pattern, message in _FOUND:
        if pattern.search(form):
            yield message
