"""Phrases for numbers in the mouth: 'about six per cent', 'four and a half', 'a third'.

"Nearly" is said only from below, "just over" only from above, "about one in five" only within 0.01
and within the interval, "twice" only from 1.95 to 2.05: each holds of the exact value.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from pipeline.wording import numbers

NEAR = 0.01  # of a share, for a simple fraction to be said of it
FINEST = 2  # decimals of an interval's ends
MORE = 1.25  # times an interval's near end: rounded further than that it says too much
OFF = 0.2  # of the last digit said: further than that is 'nearly' or 'just over'
POINTS = "percentage points"  # "points" alone is heard as those of a table
HALF = 0.5
FRACTIONS = {
    Fraction(1, 2): "half",
    Fraction(1, 3): "a third",
    Fraction(2, 3): "two thirds",
    Fraction(1, 4): "a quarter",
    Fraction(3, 4): "three quarters",
}
ONE_IN = range(5, 21)


def amount(value: float, decimals: int, unit: str) -> str:
    """A size with its unit: 'six per cent', 'half a run an over', 'nought point three of a point'.

    Halves and thirds are said where they are what the rounding gives; never sevenths.
    """
    rounded = numbers.rounded(abs(value), decimals)
    whole, rest = int(rounded), round(float(rounded) - int(rounded), decimals)
    if whole or not rest:
        return numbers.with_unit(value_said(abs(value), decimals), unit)
    if rest == 0.5:
        return f"half a {numbers.singular(unit)}"
    of = "" if unit.startswith("per cent") else "of a "
    return f"{numbers.said(abs(value), decimals)} {of}{numbers.singular(unit)}"


class Sized(NamedTuple):
    """A size as it is told: how it stands to the number that is named, which, to what decimals."""

    near: str  # 'about', 'nearly', 'just over', 'less than'
    value: float
    decimals: int


def sized(value: float, half_width: float, most: int, halves: bool = False) -> Sized:
    """A size to what its interval can bear, in words and in figures alike.

    `most` is the decimals at most. What rounds to nothing is 'less than' the last digit. `halves`
    are told of points that are one to a tenth, since a listener subtracts their two ends: 6.8 to
    4.3 is heard as two and a half.
    """
    exact = abs(value)
    if halves and float(numbers.rounded(exact, 1)) % 1 == HALF and most:
        return Sized("about", exact, 1)
    decimals = numbers.bearable(half_width, most)
    rounded = float(numbers.rounded(exact, decimals))
    if not rounded:
        return Sized("less than", 10.0**-decimals, decimals)
    return Sized(_nearness(exact, rounded, decimals), exact, decimals)


def size(value: float, half_width: float, most: int, unit: str, halves: bool = True) -> str:
    """'about six per cent', 'just over two balls'; `halves` as they are told of points."""
    told = sized(value, half_width, most, halves and unit == POINTS)
    return f"{told.near} {amount(told.value, told.decimals, unit)}"


def _nearness(exact: float, rounded: float, decimals: int) -> str:
    """How the exact value stands to the rounded one that is said."""
    off = (exact - rounded) / 10.0**-decimals
    if off < -OFF:
        return "nearly"
    return "just over" if off > OFF else "about"


def share_said(share: float, low: float | None = None, high: float | None = None) -> str:
    """A share as a fraction where one is true of it, else per cent: 'a third', 'one in seven'."""
    for fraction, words in FRACTIONS.items():
        if abs(share - float(fraction)) <= NEAR and _within(float(fraction), low, high):
            return _about_fraction(share, fraction, words)
    for count in ONE_IN:
        if abs(share - 1 / count) <= min(NEAR, 0.1 / count) and _within(1 / count, low, high):
            return f"about one in {numbers.said(count, 0)}"
    return f"{numbers.said(share * 100, 0)} per cent"


def _about_fraction(share: float, fraction: Fraction, words: str) -> str:
    off = share - float(fraction)
    if abs(off) < 0.0005:
        return words
    if off < -NEAR / 4:
        return f"nearly {words}"
    return f"just over {words}" if off > NEAR / 4 else f"about {words}"


def _within(value: float, low: float | None, high: float | None) -> bool:
    return low is None or high is None or low <= value <= high


def estimated_share(share: float) -> str:
    """'about half', 'about sixty-four per cent': a share that is itself an estimate."""
    said = share_said(share)
    return said if said.startswith(("about", "nearly", "just over")) else f"about {said}"


def times_said(ratio: float) -> str | None:
    """'about twice' and 'about half', only where they are."""
    if 1.95 <= ratio <= 2.05:
        return "about twice"
    return "about half" if 0.49 <= ratio <= 0.51 else None


def value_said(value: float, decimals: int) -> str:
    """A value in the mouth: halves and thirds where they are what the rounding gives.

    'four and a half', 'five and a third'; to one decimal .5 is a half, to two .33 and .67 thirds.
    """
    rounded = abs(float(numbers.rounded(value, decimals)))
    whole, rest = int(rounded), round(rounded - int(rounded), decimals)
    names = {(1, 0.5): "a half", (2, 0.5): "a half", (2, 0.33): "a third", (2, 0.67): "two thirds"}
    name = names.get((decimals, rest))
    if name is None or not whole:
        return numbers.said(value, decimals)
    return f"{'minus ' if value < 0 else ''}{numbers.said(whole, 0)} and {name}"


def ends_told(low: float, high: float, most: int = 1) -> tuple[float, float, int]:
    """Both ends of an interval, rounded as they are told, and to how many decimals."""
    decimals = _decimals(low, high, most)
    return (*_rounded(low, high, decimals), decimals)


def _decimals(low: float, high: float, most: int) -> int:
    """As the interval bears; rounding must not hide that no change fits, nor make it fit."""
    decimals = numbers.bearable((high - low) / 2, most)
    while decimals < FINEST and _sides(low, high) != _sides(*_rounded(low, high, decimals)):
        decimals += 1
    return decimals + 1 if decimals < most and _claims_more(low, high, decimals) else decimals


def _claims_more(low: float, high: float, decimals: int) -> bool:
    """Whether the near end, rounded, leaves out a good part of what fits: 0.6 said as one."""
    if low <= 0 <= high:
        return False
    near, said = (min(map(abs, ends)) for ends in ((low, high), _rounded(low, high, decimals)))
    return said > MORE * near


def interval_said(low: float, high: float, unit: str, most: int = 1) -> str:
    """'between five and ten per cent down', 'from two points down to one up'."""
    decimals = _decimals(low, high, most)
    ends = _rounded(low, high, decimals)
    near, far = sorted(range(2), key=lambda at: abs(ends[at]))
    if ends[0] < 0 < ends[1]:
        return f"from {amount(ends[0], decimals, unit)} down to {_bare(ends[1], decimals)} up"
    if not ends[far]:
        return f"within {amount(10.0**-decimals, decimals, unit)} of none"
    way = "up" if ends[far] > 0 else "down"
    far_said = amount(ends[far], decimals, unit)
    if ends[near] == ends[far]:
        return f"about {far_said} {way}"
    if not ends[near]:
        return f"up to {far_said} {way}"
    return f"{both_ends(_bare(ends[near], decimals), far_said)} {way}"


def both_ends(low: str, high: str) -> str:
    """'between five and ten per cent'; of larger numbers 'from one hundred to two hundred and six'.

    Beside an 'and' within a number, a second one could be heard as a part of it.
    """
    return f"from {low} to {high}" if " and " in f"{low} {high}" else f"between {low} and {high}"


def ends_said(low: float, high: float, most: int = 1) -> tuple[str, str]:
    """Both ends without unit and direction, to what the interval can bear: ('five', 'ten')."""
    decimals = _decimals(low, high, most)
    return _bare(low, decimals), _bare(high, decimals)


TIME = ("down", "up")
APART = ("lower", "higher")
FELT = ("fewer", "more")


def range_said(
    low: float, high: float, unit: str, ways: tuple[str, str] | None = TIME, most: int = 1
) -> str:
    """'anywhere from five to ten per cent down', 'anywhere between two per cent down and one up'.

    `ways` are the words of the two directions; without them a range that leaves none out has none,
    for its noun says it: 'the rise is anywhere from five to ten per cent'.
    """
    decimals = _decimals(low, high, most)
    ends = _rounded(low, high, decimals)
    down, up = ways or ("", "")
    if ends[0] < 0 < ends[1]:
        down, up = ways or TIME
        less, more = amount(ends[0], decimals, unit), _bare(ends[1], decimals)
        return f"anywhere between {less} {down} and {more} {up}"
    near, far = sorted(range(2), key=lambda at: abs(ends[at]))
    way = up if ends[far] > 0 else down
    said = amount(ends[far], decimals, unit)
    if not ends[far]:
        return f"within {amount(10.0**-decimals, decimals, unit)} of none"
    if ends[near] == ends[far]:
        told = f"about {said}"
    elif not ends[near]:
        told = f"anywhere up to {said}"
    else:
        told = f"anywhere from {_bare(ends[near], decimals)} to {said}"
    return f"{told} {way}".rstrip()


def _rounded(low: float, high: float, decimals: int) -> tuple[float, float]:
    return float(numbers.rounded(low, decimals)), float(numbers.rounded(high, decimals))


def _sides(low: float, high: float) -> tuple[int, int]:
    """On which sides of none the ends are."""
    return (low > 0) - (low < 0), (high > 0) - (high < 0)


def _bare(value: float, decimals: int) -> str:
    """A number of the same unit as the one beside it."""
    return value_said(abs(value), decimals)


def about_count(count: int) -> str:
    """'about forty': a count to its first figure, or as it is when it has but one."""
    step = 10 ** (len(str(count)) - 1)
    rounded = max(step, int(numbers.rounded(count / step, 0)) * step)
    said = numbers.said(rounded, 0)
    return said if rounded == count else f"about {said}"
