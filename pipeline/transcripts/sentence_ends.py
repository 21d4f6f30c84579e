"""Where sentences of prose end: not at the point of a number, of initials, of an abbreviation."""

from __future__ import annotations

import re
from collections.abc import Iterator

LONGEST = 800  # characters of a sentence: a minute of talk without an end
# The sign or signs that end a sentence, with quotes and brackets that close after them.
_SIGNS = re.compile(r"(?:[.!?]+|…)[\"'”’)\]]*(?=\s|$)")
_NEXT = re.compile(r"\S")
_SHORT = re.compile(
    r"(?:\b(?:mr|mrs|ms|dr|st|jr|sr|vs?|cf|e\.g|i\.e|approx|etc|no|nos|fig)|(?<!['’])\b[A-Z](?:\.[A-Z])*)\.$",
    re.IGNORECASE,
)
_COUNTS = re.compile(r"\bnos?\.$", re.IGNORECASE)  # 'no. 8', but 'No. Eight of them did.'


def sentence_spans(text: str) -> Iterator[tuple[int, int]]:
    """(first character, one after the last) of each sentence; what is blank is in none."""
    begins = 0
    for found in _SIGNS.finditer(text):
        if _ends(text, found):
            yield from _span(text, begins, found.end())
            begins = found.end()
    yield from _span(text, begins, len(text))


def ends_sentence(word: str, following: str) -> bool:
    """Whether a word with its signs ends a sentence, by the word that follows it."""
    text = f"{word} {following}"
    return any(_ends(text, found) for found in _SIGNS.finditer(text) if found.end() == len(word))


def _span(text: str, begins: int, ends: int) -> Iterator[tuple[int, int]]:
    """One sentence; what goes on for ever is none, and is cut between two words."""
    while ends - begins > LONGEST:
        cut = text.rfind(" ", begins + 1, begins + LONGEST)
        cut = cut if cut > begins else begins + LONGEST
        yield from _stripped(text, begins, cut)
        begins = cut
    yield from _stripped(text, begins, ends)


def _stripped(text: str, begins: int, ends: int) -> Iterator[tuple[int, int]]:
    written = text[begins:ends]
    if written.strip():
        yield begins + len(written) - len(written.lstrip()), begins + len(written.rstrip())


def _ends(text: str, signs: re.Match[str]) -> bool:
    """A small letter goes on after dots or a quote: 'four... sorry, five', '“Did it?” we asked'.

    After one point it does not, since captions may have signs and no capitals.
    """
    following = _NEXT.search(text, signs.end())
    if following is None:
        return True
    after = following[0]
    if after.islower() and signs[0] not in (".", "!", "?"):
        return False
    before = text[max(0, signs.start() - 12) : signs.start() + 1]
    if _COUNTS.search(before):
        return not after.isdigit()
    short = _SHORT.search(before)
    return short is None or (short[0][:1].isupper() and short[0] == "I.")
