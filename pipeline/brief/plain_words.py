"""The box of words: which terms of the glossary a brief says."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.brief.beats import BeatPage
from pipeline.brief.top_sheet import Card, Expected

if TYPE_CHECKING:
    from pipeline.config.glossary import Term


def terms_said(glossary: Sequence[Term], texts: Iterable[str]) -> list[Term]:
    """The terms that some text has as whole words, in the glossary's order.

    A term inside a longer one that is told too ('boundary' in 'boundary share') is not said there.
    """
    said = _plain("\n".join(texts))
    found = set()
    by_length = sorted(
        ((word, term) for term in glossary for word in (term.term, *term.also)),
        key=lambda one: -len(one[0]),
    )
    for word, term in by_length:
        said, times = _pattern(word).subn("\n", said)
        if times:
            found.add(term.term)
    return [term for term in glossary if term.term in found]


def for_viewers(
    answer: Sequence[str],
    cards: Sequence[Card],
    found: Sequence[Expected],
    pages: Sequence[BeatPage],
) -> Iterator[str]:
    """What is said, or shown at a glance: of this the words are explained."""
    yield from answer
    for card in cards:
        yield from (card.name, card.why, str(card.lead))
    for row in found:
        yield from (row.say, row.word, row.found)
    for page in pages:
        yield from (page.title, *page.lines, *page.dont_say)


def _pattern(word: str) -> re.Pattern[str]:
    """The word, or its plural, that is no part of another."""
    return re.compile(rf"(?<![\w-]){re.escape(_plain(word))}s?(?![\w-])")


def _plain(text: str) -> str:
    """Small letters and one kind of apostrophe."""
    return text.casefold().replace("’", "'")
