"""Which outcome a sentence tells, from the forms that the voice has for it."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from pipeline.voice.forms import Forms, voice

SENTENCE_END = re.compile(r"(?<=[.?]) ")
# What fills a slot that can be but a few words; any other may be whatever it is.
_FILLED = {
    "way": r"(?:up|down|rise|fall|gap|difference|break|(?:with|like).*)(?: (?:for|in) [\w ’,-]+)?",
    "rising": "rising|falling",
    "up": "up|down",
    "rose": "rose|fell",
    "within": "(?: in the gap between them)?",
    "went": "went up by|came down by",
    "higher": "higher|lower",
    "alike": r"like for like|with [\w, ]+ held still",
}
_SLOT = re.compile(r"\\\{(\w+)\\\}")


@lru_cache(maxsize=4096)
def heard_as(sentence: str, among: tuple[str, ...]) -> str:
    """The outcome that has a form with this sentence in it; '' of one that is in none.

    Only outcomes are asked whose names begin with one of `among`. Where several have it, it is the
    one whose form has most words of its own.
    """
    found = [
        (own, outcome)
        for own, outcome, words in _patterns(voice(), among)
        if words.fullmatch(sentence)
    ]
    return max(found)[1] if found else ""


def _each(form: str) -> tuple[tuple[int, re.Pattern[str]], ...]:
    """A pattern for every sentence of a form, with how many letters are its own."""
    return tuple(
        (len(re.sub(r"\{\w+\}", "", one)), re.compile(_pattern(one), re.IGNORECASE))
        for one in SENTENCE_END.split(form)
    )


def _pattern(sentence: str) -> str:
    return _SLOT.sub(lambda slot: f"(?:{_FILLED.get(slot[1], '.+')})", re.escape(sentence))


@cache
def _patterns(forms: Forms, among: tuple[str, ...]) -> tuple[tuple[int, str, re.Pattern[str]], ...]:
    return tuple(
        (own, outcome, words)
        for outcome, each in forms.of.items()
        if outcome.startswith(among)
        for form in each
        for own, words in _each(form)
    )
