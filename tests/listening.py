"""Numbers as they are heard: English words and digits read back, each with its rounding.

Written from the language, not from the words that the pipeline makes, so that it can judge them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import NamedTuple

SMALL = (
    *("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"),
    "nineteen",
)
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
UNITS = {word: at for at, word in enumerate(SMALL)}
UNITS |= {word: 10 * at for at, word in enumerate(TENS, start=2)}
SCALES = {"hundred": 100, "thousand": 1_000, "million": 1_000_000}
FRACTIONS = {
    **{"a half": 1 / 2, "half a": 1 / 2, "half an": 1 / 2, "a third": 1 / 3, "two thirds": 2 / 3},
    **{"a quarter": 1 / 4, "three quarters": 3 / 4},
}
_TENS, _TEENS = "|".join(TENS), "|".join(SMALL[::-1])  # the longer of two that begin alike first
_UNDER_HUNDRED = rf"(?:(?:{_TENS})(?:-(?:{_TEENS}))?|{_TEENS})"
_LAST = rf"(?:(?: and)? {_UNDER_HUNDRED}(?! hundred| million)\b)"
_UNDER_THOUSAND = rf"{_UNDER_HUNDRED}(?: hundred{_LAST}?)?"
_THOUSANDS = rf"(?: {_UNDER_THOUSAND}(?= thousand))?"
_HUNDREDS = rf"(?: {_UNDER_HUNDRED} hundred)?"
_WHOLE = rf"{_UNDER_THOUSAND}(?: million)?{_THOUSANDS}(?: thousand{_HUNDREDS}{_LAST}?)?"
_DIGITS = rf"(?: (?:{'|'.join(SMALL[:10])})(?![\w-]))+"
_PART = r"(?:a half|a third|two thirds|a quarter|three quarters)"
_SPOKEN = rf"{_WHOLE} point{_DIGITS}|{_WHOLE} and {_PART}|{_PART}|half an?(?= )|{_WHOLE}"
_SHOWN = r"[−+-]?\d+(?:,\d{3})*(?:\.\d+)?"
_ANY = re.compile(rf"(?<![\w.-])(?:{_SHOWN}|{_SPOKEN})(?![\w-])", re.IGNORECASE)
MINUS = "−-"


class Number(NamedTuple):
    """What was said, and how much its rounding may hide on either side."""

    value: float
    slack: float

    def near(self, value: float, more: float = 0.0) -> bool:
        """Whether it may stand for this value; `more` is allowed beside its own rounding."""
        return abs(self.value - value) <= (self.slack + more) * (1 + 1e-9) + 1e-12


@dataclass(frozen=True)
class Heard:
    """A text with '#' in place of each number, and the numbers in their order."""

    text: str
    numbers: list[Number] = field(default_factory=list)


def heard(text: str, names: tuple[str, ...] = ()) -> Heard:
    """A text taken apart; `names` are parts of it whose numbers are none ('a hundred balls')."""
    for name in sorted(names, key=len, reverse=True):
        text = re.sub(re.escape(name), lambda found: _hidden(found[0]), text, flags=re.IGNORECASE)
    numbers: list[Number] = []

    def one(found: re.Match[str]) -> str:
        numbers.append(number(found[0]))
        return "#"

    return Heard(_ANY.sub(one, text), numbers)


def _hidden(name: str) -> str:
    """A name that has no number in it any more: '_a_hundred_balls_'."""
    return f"_{re.sub(r'[^a-zA-Z]+', '_', name)}_"


def number(words: str) -> Number:
    """'five point nought five' as 5.05 to the hundredth; 'four and a half' as 4.5 to the tenth."""
    words = words.lower().strip()
    if words[0].isdigit() or words[0] in f"+{MINUS}":
        plain = words.replace(",", "").replace("−", "-")
        digits = len(plain.partition(".")[2])
        return Number(float(plain), 0.5 * 10.0**-digits)
    if words in FRACTIONS:
        return Number(FRACTIONS[words], 0.05)
    whole, _, part = words.rpartition(" and ")
    if part in FRACTIONS:
        return Number(_whole(whole) + FRACTIONS[part], 0.05)
    whole, _, digits_said = words.partition(" point ")
    digits_of = "".join(str(UNITS[digit]) for digit in digits_said.split())
    value = float(f"{_whole(whole)}.{digits_of or 0}")
    return Number(value, 0.5 * 10.0 ** -len(digits_of))


def _whole(words: str) -> int:
    """'six hundred and seventy-six thousand' as 676,000."""
    total = group = 0
    for word in words.replace("-", " ").split():
        if word == "hundred":
            group = (group or 1) * 100
        elif word in SCALES:
            total, group = total + (group or 1) * SCALES[word], 0
        elif word != "and":
            group += UNITS[word]
    return total + group
