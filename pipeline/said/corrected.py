"""A number that is taken back in the same breath: 'four, sorry, four and a half'."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.tokens import Token

_TAKEN_BACK = re.compile(
    r"\b(?:sorry|i mean|make that|or rather|rather|correction|scratch that|excuse me|let me correct"
    r"|beg your pardon|pardon|i should say|that should be|i meant|no wait|wait|apologies|strike that"
    r"|check that|hang on|let me start again|my mistake|i tell a lie|what am i saying|oops)\b"
    r"|(?:^|[,.;–—-] )(?:no|er no|well no|um no|uh no|actually|well actually)(?: [,.;–—-]|$)"
    r"|^(?:no|actually)\b"
)
LONGEST = 9  # tokens between the two


def withdrawn(tokens: Sequence[Token], spans: Sequence[tuple[int, int]]) -> list[bool]:
    """Of each number, by its first token and the one after it, whether the next one replaces it."""
    found = [False] * len(spans)
    for at in range(len(spans) - 1):
        between = tokens[spans[at][1] : spans[at + 1][0]]
        words = " ".join(token.text for token in between)
        found[at] = len(between) <= LONGEST and bool(_TAKEN_BACK.search(words))
    return found
