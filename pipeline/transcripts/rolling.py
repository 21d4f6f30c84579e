"""Captions that roll or grow, each word of them once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from pipeline.transcripts.caption_files import Caption

_SIGNS = re.compile(r"^\W+|\W+$")
FEWEST = 8  # captions that show whether a file has a word in each
KEPT = 10_000  # words that are known again
FEW = 2  # captions of one word that show whether they grow


def spoken(shown: Sequence[Caption]) -> list[Caption]:
    """The captions with every word once: lines repeated from the one before are left out.

    Rolling captions show a line again above the next one, or grow a line word by word.
    """
    said: list[Caption] = []
    before: list[str] = []
    by_words, grow = _by_words(shown), _grow(shown)
    for at, caption in enumerate(shown):
        growing = grow or _is_grown(caption, shown[at + 1 : at + 2])
        again = _repeated(before, caption.lines, by_words, growing)
        new = caption.text.split()[again:]
        if new:
            said.append(Caption(caption.start, caption.end, [" ".join(new)]))
        before = caption.lines or before
    return said


def _by_words(shown: Sequence[Caption]) -> bool:
    """Whether most captions are a word each: one that comes twice there is said twice."""
    if any(len(caption.lines) > 1 for caption in shown) or len(shown) < FEWEST:
        return False
    return sum(len(caption.text.split()) == 1 for caption in shown) * 4 > len(shown) * 3


def _grow(shown: Sequence[Caption]) -> bool:
    """Whether lines of the file grow: where one word is shown, more begin with it than do not."""
    last = [caption.lines[-1:] for caption in shown]
    words = [_words(" ".join(each)) for each in last]
    followed = [(one, two) for one, two in pairwise(words) if len(one) == 1 and len(two) > 1]
    grown = sum(two[:1] == one for one, two in followed)
    return len(followed) >= FEW and grown * 2 > len(followed)


def _is_grown(caption: Caption, following: Sequence[Caption]) -> bool:
    """Whether the caption that follows has all of the words in one line, and more."""
    words = _words(caption.text)
    if len(words) < 2 or not following or len(following[0].lines) != 1:
        return False
    after = _words(following[0].text)
    return len(after) > len(words) and after[: len(words)] == words


def _repeated(before: Sequence[str], lines: Sequence[str], by_words: bool, growing: bool) -> int:
    """How many of the words are whole last lines of the caption before; the most there are.

    A single word counts only as a line of its own that is shown again, 'one', 'one an over', or
    where the line is `growing`: 'four', 'four point', 'four point one'.
    """
    words = _words(" ".join(lines))
    for first in range(len(before)):
        last = _words(" ".join(before[first:]))
        alone = growing or (not by_words and words and _words(lines[0]) == last)
        if words[: len(last)] == last and (len(last) > 1 or alone):
            return len(last)
    return 0


def _words(text: str) -> list[str]:
    return [_bare(word) for word in text.split()]


@lru_cache(KEPT)
def _bare(word: str) -> str:
    return _SIGNS.sub("", word.lower()) or word
