"""Words of captions joined into sentences: by their signs, and where there are none by pauses.

Captions that a program makes have no signs and no capitals. A sentence then ends at a pause, and
before it grows too long; but never inside a number or between a number and its unit.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from pipeline.transcripts.caption_files import Caption
from pipeline.transcripts.goes_on import goes_on
from pipeline.transcripts.passage import Passage
from pipeline.transcripts.sentence_ends import ends_sentence

PAUSE = 900  # milliseconds without words that end a sentence where no signs do
SILENCE = 5_000  # milliseconds after which a sentence has ended, whatever its last word is
FEWEST, MOST = 6, 32  # words of a sentence that only pauses end
LONGEST = 80  # words of a sentence that a sign should end: some captions have few
PUNCTUATED = 60  # words for which one sign at least ends a sentence, where signs are set at all
# Words that begin a sentence more often than they go on with one.
_BEGIN = {"but", "so", "now", "and", "because", "then", "well", "okay", "let's", "that's", "it's"}


class Word(NamedTuple):
    """A word as it is written, when its caption begins, and the silence before it."""

    text: str
    start: int
    pause: int
    first: bool  # of its caption


def passages(shown: Sequence[Caption]) -> list[Passage]:
    """The sentences of captions whose words all stand once, in their order."""
    words = list(_words(shown))
    signs = sum(ends_sentence(word.text, "") for word in words)
    by_signs = signs * PUNCTUATED >= len(words)
    return [_passage(part, by_signs) for part in _parted(words, by_signs)]


def _words(shown: Sequence[Caption]) -> Iterator[Word]:
    ended = 0
    for at, caption in enumerate(shown):
        pause = max(0, caption.start - ended) if at else 0
        for place, text in enumerate(caption.text.split()):
            yield Word(text, caption.start, 0 if place else pause, place == 0)
        ended = max(ended, caption.end)


def _parted(words: Sequence[Word], by_signs: bool) -> Iterator[Sequence[Word]]:
    begins, most = 0, LONGEST if by_signs else MOST
    for at in range(1, len(words) + 1):
        if at == len(words) or _ends(words, begins, at, by_signs):
            yield words[begins:at]
            begins = at
        elif at - begins >= most:
            cut = _best_cut(words, begins, at) or (at if at - begins >= 2 * most else 0)
            if cut:
                yield words[begins:cut]
                begins = cut


def _ends(words: Sequence[Word], begins: int, at: int, by_signs: bool) -> bool:
    """Whether a sentence ends before the word at that place."""
    last, following = words[at - 1].text, words[at].text
    if words[at].pause >= SILENCE:
        return True
    if goes_on(last, following, [word.text for word in words[at + 1 : at + 3]]):
        return False
    if ends_sentence(last, following):
        return True
    return not by_signs and at - begins >= FEWEST and words[at].pause >= PAUSE


def _best_cut(words: Sequence[Word], begins: int, ends: int) -> int:
    """Where a run of words without an end is best cut in two; 0 where it can't be."""
    fitting = [
        at
        for at in range(begins + FEWEST, ends)
        if not goes_on(words[at - 1].text, words[at].text, [w.text for w in words[at + 1 : at + 3]])
    ]
    return max(fitting, key=lambda at: _fits(words[at], at), default=0)


def _fits(word: Word, at: int) -> tuple[int, bool, bool, int]:
    """The longest pause, else a word that begins sentences, else a caption; the last of these."""
    return word.pause, word.text.lower() in _BEGIN, word.first, at


def _passage(words: Sequence[Word], by_signs: bool) -> Passage:
    text, turns, begins = "", list[tuple[int, int]](), list[int]()
    for word in words:
        text += " " if text else ""
        if not turns or turns[-1][1] != word.start:
            turns.append((len(text), word.start))
        begins.append(len(text))
        text += word.text
    breaks = None if by_signs else tuple(begins[at] for at in _breaks(words))
    return Passage(text, start=words[0].start, turns=tuple(turns), breaks=breaks)


def _breaks(words: Sequence[Word]) -> list[int]:
    """The words that may begin a sentence, the likeliest first; the first one is behind a word.

    Not where a silence stands before it: what comes then goes on with nothing.
    """
    fitting = [
        at
        for at in range(1, len(words))
        if not goes_on(words[at - 1].text, words[at].text, [w.text for w in words[at + 1 : at + 3]])
    ]
    fitting.sort(key=lambda at: _fits(words[at], at), reverse=True)
    return fitting if words[0].pause >= SILENCE else [0, *fitting]
