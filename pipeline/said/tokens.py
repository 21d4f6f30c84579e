"""A sentence as words and figures, each with its place: what hyphens join stands apart."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

_TOKEN = re.compile(
    r"(?P<figure>(?<![^\W_])(?:(?:(?<![\w.])[+\-\N{MINUS SIGN}])?\d+(?:,\d{3})+(?:[.·]\d+)?(?!\d)"
    r"|(?:(?<![\w.])[+\-\N{MINUS SIGN}])?\d+(?:[.·]\d+)?))"
    r"|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*)|(?P<sign>[→%/–—\-:;,.!?()“”\"])"
)
ENDS = {".", "!", "?"}
BREAKS = ENDS | {",", ";", ":", "—", "(", ")"}
# No possessives.
_WITH_IS = {"it's", "that's", "there's", "here's", "what's", "let's", "who's", "he's", "she's"}


class Token(NamedTuple):
    """A word in lower case, a figure or a sign; `begins` to `ends` are its characters."""

    text: str
    begins: int
    ends: int
    kind: str  # 'word', 'figure' or 'sign'


def tokens_of(text: str) -> list[Token]:
    """Possessive endings are left out: 'spin’s' is 'spin'."""
    found = []
    for match in _TOKEN.finditer(text):
        kind = match.lastgroup or "sign"
        if match.group() == "-" and _is_hyphen(text, match.start()):
            continue
        word = match.group().lower().replace("’", "'").replace("·", ".")
        if kind == "word" and word.endswith("'s") and word not in _WITH_IS:
            word = word[:-2]
        found.append(Token(word, match.start(), match.end(), kind))
    return found


def _is_hyphen(text: str, at: int) -> bool:
    """Whether it joins two words: 'forty-three', 'left-arm'; between figures it is a sign."""
    before, after = text[at - 1 : at], text[at + 1 : at + 2]
    return (before.isalpha() and after.isalnum()) or (before.isalnum() and after.isalpha())


def joined(tokens: Sequence[Token]) -> str:
    """The words with one space between them, for patterns that look across them."""
    return " ".join(token.text for token in tokens)


def text_at(tokens: Sequence[Token], at: int) -> str:
    """The word, figure or sign at a position, '' beyond either end."""
    return tokens[at].text if 0 <= at < len(tokens) else ""


def word_at(tokens: Sequence[Token], at: int) -> str:
    """The same of a word alone, '' of figures and signs."""
    return tokens[at].text if 0 <= at < len(tokens) and tokens[at].kind == "word" else ""
