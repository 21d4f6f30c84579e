"""The script as it is read: words counted after numbers are spelled out, and the time they take."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from pipeline.wording import numbers

RATE, FASTEST, SLOWEST = 160, 180, 150  # words a minute, as read for radio
AT, FROM_TO = f"{RATE} words a minute", f"{FASTEST} to {SLOWEST}"
LONGEST = 15  # digits of a number that is read as one; a longer one is read digit by digit
_DIGITS = re.compile(r"\d+(?:,\d{3})*(?:\.\d+)?")


def spelled(text: str) -> str:
    """The text with every figure as it is read: '4.5' as 'four point five', 2017 as two words."""
    return _DIGITS.sub(_read, text)


def _read(found: re.Match[str]) -> str:
    figure = found.group().replace(",", "")
    if re.fullmatch(r"(19|20)\d\d", figure):
        return _year(int(figure))
    whole, _, part = figure.partition(".")
    if len(whole) + len(part) > LONGEST:
        return " ".join("point" if sign == "." else _digit(int(sign)) for sign in figure)
    decimals = len(part)
    return numbers.said(float(figure), decimals)


@cache
def _digit(digit: int) -> str:
    return numbers.said(digit, 0)


def _year(year: int) -> str:
    """2017 as 'twenty seventeen', 2009 as 'two thousand and nine', 1905 as 'nineteen oh five'."""
    century, rest = divmod(year, 100)
    if 2000 <= year < 2010 or not rest:
        return numbers.said(year, 0)
    odd = f"oh {numbers.said(rest, 0)}" if rest < 10 else numbers.said(rest, 0)
    return f"{numbers.said(century, 0)} {odd}"


def words(text: str) -> int:
    """Words as they are spoken; 'thirty-one' is two, 'can't' one."""
    return len(re.findall(r"[\w’']+", spelled(text)))


def seconds(count: int, rate: int = RATE) -> float:
    """Time to say so many words."""
    return count * 60 / rate


def timing(count: int) -> tuple[int, int, int]:
    """(seconds at the usual rate, at the fastest, at the slowest), whole seconds."""
    usual, fastest, slowest = (
        int(numbers.rounded(seconds(count, rate), 0)) for rate in (RATE, FASTEST, SLOWEST)
    )
    return usual, fastest, slowest


@dataclass
class Clock:
    """Seconds so far, at the usual rate and at the ends of the range."""

    usual: int = 0
    fastest: int = 0
    slowest: int = 0

    def run(self, usual: int, fastest: int, slowest: int) -> str:
        """Let time pass; the usual total so far."""
        self.usual += usual
        self.fastest += fastest
        self.slowest += slowest
        return clock(self.usual)

    @property
    def total(self) -> str:
        return clock(self.usual)

    @property
    def range(self) -> str:
        """'2:40 to 3:12'."""
        return f"{clock(self.fastest)} to {clock(self.slowest)}"


def clock(total: int) -> str:
    """75 seconds as '1:15'."""
    return f"{total // 60}:{total % 60:02d}"
