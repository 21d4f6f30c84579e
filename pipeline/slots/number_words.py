"""Where numbers stand in a sentence, each as far as it goes: no slot may hold half of one."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.wording import numbers

Span = tuple[int, int]  # the first character, and the one after the last

_ONES = [numbers.said(number, 0) for number in range(20)]
_TENS = [numbers.said(number, 0) for number in range(20, 100, 10)]
_LARGE = ("hundred", "thousand", "million", "billion")


def _either(words: Sequence[str]) -> str:
    return "|".join(sorted(words, key=len, reverse=True))


_WORD = f"(?:(?:{_either(_TENS)})-(?:{_either(_ONES)})|{_either([*_ONES, *_TENS, *_LARGE])})"
_PART = "(?:a half|a third|a quarter|two thirds|three quarters)"
_NUMBER = re.compile(
    rf"(?<![\w-])(?:(?:minus )?{_WORD}"
    rf"(?:(?<=hundred) and {_WORD}|(?<=thousand) and {_WORD}|(?<=million) and {_WORD}"
    rf"| point {_WORD}| {_WORD})*"
    rf"(?: and {_PART}| thirds?| quarters?| in {_WORD})?"
    rf"|{_PART}|half|[+\-{numbers.MINUS}]?\d+(?:[.,]\d+)*%?)(?![\w-])",
    re.IGNORECASE,
)


def number_spans(text: str) -> list[Span]:
    """Every number of a text, in words or figures, from its first word to its last."""
    return [found.span() for found in _NUMBER.finditer(text)]
