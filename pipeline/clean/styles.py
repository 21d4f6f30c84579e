"""Bowling styles in free text to arm, kind and style; what can't be read stays unknown.

Two spellings are met ("Right arm Fast medium", "right-arm fast-medium"), comma lists of which the
first counts, and the old names of wrist spin ("Legbreak googly").
"""

from __future__ import annotations

import re
from typing import NamedTuple


class Style(NamedTuple):
    arm: str
    kind: str
    style: str


UNKNOWN = Style("unknown", "unknown", "unknown")

# In order: the first words that are found decide.
_STYLES = [
    (r"wrist spin|chinaman", "spin", "wrist spin"),
    (r"leg ?break|leg ?spin|googly", "spin", "wrist spin"),
    (r"off ?break|off ?spin", "spin", "finger spin"),
    (r"orthodox|slow left arm$|finger spin", "spin", "finger spin"),
    (r"fast medium", "pace", "fast-medium"),
    (r"medium fast", "pace", "medium-fast"),
    (r"slow medium|medium slow", "pace", "slow-medium"),
    (r"fast", "pace", "fast"),
    (r"medium", "pace", "medium"),
    (r"seam|swing|pace", "pace", "pace"),
    (r"spin|\bslow\b", "spin", "spin"),
]


def parse_style(text: str | None) -> Style:
    """Arm, kind and style of the first style named; `UNKNOWN` for blank or unread text."""
    first = re.split(r"[,;/]", text or "")[0]
    words = re.sub(r"[\s\-_]+", " ", first).strip().lower()
    for pattern, kind, style in _STYLES:
        if re.search(pattern, words):
            return Style(_arm(words), kind, style)
    return UNKNOWN._replace(arm=_arm(words))


def _arm(words: str) -> str:
    if re.search(r"\bleft\b|chinaman", words):
        return "left"
    if re.search(r"\bright\b|leg ?break|leg ?spin|off ?break|off ?spin|googly", words):
        return "right"
    return "unknown"
