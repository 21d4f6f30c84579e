"""A number that is taken back in the same breath: 'four, sorry, four and a half'."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.read_numbers import read
from pipeline.said.tokens import Token, tokens_of

_TAKEN_BACK = re.compile(
    r"\b(?:sorry|i mean|make that|or rather|(?<!or )rather(?! than)|correction"
    r"|scr(?:atch|ap|ub) that|excuse me|let me correct"
    r"|beg your pardon|pardon|i should say|that should be|i meant|no wait|apologies"
    r"|strike that"
    r"|check that|hang on|let me start again|my mistake|i tell a lie|what am i saying|oops)\b"
    r"|(?:^|[,.;–—-] )(?:no|er no|well no|um no|uh no|actually|well actually|well)(?: [,.;–—-]|$)"
    r"|^(?:no|actually)\b|(?:^|[,.;–—-] )wait\b"
)
SHORT = 12  # tokens of a sentence that is no more than the number put right
LONGEST = 9  # tokens between the two


def withdrawn(tokens: Sequence[Token], spans: Sequence[tuple[int, int]]) -> list[bool]:
    """Of each number, by its first token and the one after it, whether the next one replaces it."""
    found = [False] * len(spans)
    for at in range(len(spans) - 1):
        between = tokens[spans[at][1] : spans[at + 1][0]]
        words = " ".join(token.text for token in between)
        found[at] = len(between) <= LONGEST and bool(_TAKEN_BACK.search(words))
    return found


_BEGINS = re.compile(
    r"^(?:sorry|no(?= [,.;–—-]| wait| it| that)|correction|make that|i mean"
    r"|or rather|excuse me|apologies|my mistake|scratch that|pardon|i should say)\b"
)


def begins_anew(text: str) -> bool:
    """Whether a sentence takes back the number that the one before it ended with."""
    tokens = tokens_of(text)
    words = " ".join(token.text for token in tokens[:4])
    return len(tokens) <= SHORT and bool(_BEGINS.match(words)) and bool(read(tokens))
