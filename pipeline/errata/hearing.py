"""Text as it is heard, and where something is said in it: figures, signs and case make no odds."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from pipeline.wording import numbers
from pipeline.wording.script import spelled

# Ways to write what is said alike.
_ALIKE = (
    (re.compile(r"(?<=\d)\s*%|\bper ?cent\b", re.IGNORECASE), " per cent"),
    (re.compile(r"\bpercentage (?=points?\b)", re.IGNORECASE), ""),
    (re.compile(r"\bpts\b", re.IGNORECASE), "points"),
    (re.compile(r"\bruns? (?:an|per) over\b|\bper over\b", re.IGNORECASE), "an over"),
    (re.compile(r"\bzero\b", re.IGNORECASE), "nought"),
)
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*")
_NUMBERS = {
    *(numbers.said(number, 0) for number in (*range(20), *range(20, 100, 10))),
    *("hundred", "thousand", "million", "point"),
}
_PARTS = {"half", "third", "thirds", "quarter", "quarters"}
# What begins a range, and what stands between that and the number that ends it.
_RANGE = {"anywhere", "anything", "between"}
_IN_A_RANGE = {"from", "up", "to", "and", "a", "half"} | _NUMBERS | _PARTS
LONGEST_RANGE = 20  # words, from the one that begins it to its second number
# What may follow a number that stands without its unit: "to four point two in a spell".
_AFTER = {"now", "then", "before", "after", "at", "in", "for", "over", "by", "to", "against"}


class Word(NamedTuple):
    """A word in lower case, no possessive ending; the sign after it; which piece it is of."""

    text: str
    stop: str
    piece: int


def heard(text: str, piece: int = 0) -> list[Word]:
    """The words of a text as they are read aloud: '7.4%' as 'seven point four per cent'."""
    for written, said in _ALIKE:
        text = written.sub(said, text)
    text = spelled(text.replace(numbers.MINUS, " ")).lower().replace("’", "'")
    text = re.sub(r"(?<=\w)-(?=\w)", " ", text)
    found = []
    for match in _WORD.finditer(text):
        sign = text[match.end() : match.end() + 1]
        word = re.sub(r"'s$", "", match.group())
        found.append(Word(word, sign if sign in ".,;:!?" else "", piece))
    return found


def places(words: Sequence[Word], said: Iterable[tuple[str, bool]]) -> Iterator[tuple[int, int]]:
    """(position of the first word, which of `said`) wherever one is said, in order.

    Each of `said` is a wording and whether it is a number without its unit, which only counts
    at the end of a clause. Where two would overlap, the longer one is taken.
    """
    wanted = [([w.text for w in heard(text)], bare, at) for at, (text, bare) in enumerate(said)]
    wanted.sort(key=lambda item: -len(item[0]))
    taken: set[int] = set()
    found = []
    for form, bare, at in wanted:
        for first in range(len(words) - len(form) + 1 if form else 0):
            here = set(range(first, first + len(form)))
            if not here & taken and _is_here(words, form, first, bare):
                taken |= here
                found.append((first, at))
    yield from sorted(found)


def _is_here(words: Sequence[Word], form: list[str], first: int, bare: bool) -> bool:
    """Whether exactly this is said: 'seven per cent' is not said in 'twenty-seven per cent'."""
    end = first + len(form)
    if [word.text for word in words[first:end]] != form:
        return False
    if form[0] in _NUMBERS and _number_goes_on(words[max(0, first - 2) : first]):
        return False
    if form[0] in _NUMBERS | _PARTS and _ends_a_range(words[max(0, first - LONGEST_RANGE) : first]):
        return False
    last = words[end - 1]
    if last.stop or end == len(words):
        return True
    follows = [word.text for word in words[end : end + 3]]
    if form[-1] in _NUMBERS and (follows[0] in _NUMBERS or _and_a_part(follows)):
        return False
    return not bare or follows[0] in _AFTER or (follows[0] == "an" and follows[1:2] == ["over"])


def _number_goes_on(before: Sequence[Word]) -> bool:
    """Whether what stands before a number is the beginning of it: 'twenty', 'one hundred and'."""
    if not before or before[-1].stop:
        return False
    joined = before[-1].text == "and" and before[0].text in ("hundred", "thousand")
    return before[-1].text in _NUMBERS or joined


def _ends_a_range(before: Sequence[Word]) -> bool:
    """Whether the number is an end of what might be: 'anywhere from five to seven per cent'."""
    for word in reversed(before):
        if word.stop:
            return False
        if word.text in _RANGE:
            return True
        if word.text not in _IN_A_RANGE:
            return False
    return False


def _and_a_part(follows: list[str]) -> bool:
    """'and a half', 'and two thirds'."""
    return follows[0] == "and" and len(follows) == 3 and follows[2] in _PARTS
