"""Phrases for numbers in the mouth: 'about six per cent', 'nearly half', 'four and a half'.

"Nearly" is said only from below, "just over" only from above, "about one in five" only within 0.01
and within the interval, "twice" only from 1.95 to 2.05: each holds of the exact value.
"""

from __future__ import annotations

from fractions import Fraction

from pipeline.wording import numbers

NEAR = 0.01  # of a share, for a simple fraction to be said of it
FRACTIONS = {
    Fraction(1, 2): "half",
    Fraction(1, 3): "a third",
    Fraction(2, 3): "two thirds",
    Fraction(1, 4): "a quarter",
    Fraction(3, 4): "three quarters",
}
ONE_IN = range(5, 21)


def size(value: float, half_width: float, most: int, unit: str) -> str:
    """'about six per cent', 'just over two balls': a size to what its interval can bear.

    `most` is the decimals at most. Under half of the last digit it is 'less than one'.
    """
    exact = abs(value)
    decimals = numbers.bearable(half_width, most)
    rounded = float(numbers.rounded(exact, decimals))
    if not rounded:
        least = numbers.said(10.0**-decimals, decimals)
        return f"less than {numbers.with_unit(least, unit)}"
    said = numbers.with_unit(numbers.said(exact, decimals), unit)
    return f"{_nearness(exact, rounded, decimals)} {said}"


def _nearness(exact: float, rounded: float, decimals: int) -> str:
    """How the exact value stands to the rounded one that is said."""
    off = (exact - rounded) / 10.0**-decimals
    if off < -0.2:
        return "nearly"
    return "just over" if off > 0.2 else "about"


def share_said(share: float, low: float | None = None, high: float | None = None) -> str:
    """A share as a fraction where one is true of it, else per cent: 'a third', 'one in seven'."""
    for fraction, words in FRACTIONS.items():
        off = share - float(fraction)
        if abs(off) <= NEAR and _within(float(fraction), low, high):
            return words if not round(off, 4) else f"about {words}"
    for count in ONE_IN:
        if abs(share - 1 / count) <= min(NEAR, 0.1 / count) and _within(1 / count, low, high):
            return f"about one in {numbers.said(count, 0)}"
    return f"{numbers.said(share * 100, 0)} per cent"


def _within(value: float, low: float | None, high: float | None) -> bool:
    return low is None or high is None or low <= value <= high


def times_said(ratio: float) -> str | None:
    """'twice' and 'half', only where they are."""
    if 1.95 <= ratio <= 2.05:
        return "twice"
    return "half" if 0.49 <= ratio <= 0.51 else None


def value_said(value: float, decimals: int) -> str:
    """A value in the mouth: halves and thirds where they are what the rounding gives.

    'four and a half', 'five and a third'; to one decimal .5 is a half, to two .33 and .67 thirds.
    """
    rounded = abs(float(numbers.rounded(value, decimals)))
    whole, rest = int(rounded), round(rounded - int(rounded), decimals)
    names = {(1, 0.5): "half", (2, 0.5): "half", (2, 0.33): "third", (2, 0.67): "two thirds"}
    name = names.get((decimals, rest))
    if name is None:
        return numbers.said(value, decimals)
    part = name if name == "two thirds" else f"a {name}"
    sign = "minus " if value < 0 else ""
    if not whole:
        return f"{sign}{'half' if name == 'half' else part}"
    return f"{sign}{numbers.said(whole, 0)} and {part}"


def interval_said(low: float, high: float, unit: str, most: int = 1) -> str:
    """'between five and ten per cent down', 'from two points down to one up'."""
    decimals = numbers.bearable((high - low) / 2, most)
    ends = [float(numbers.rounded(end, decimals)) for end in (low, high)]
    said = [numbers.said(abs(end), decimals) for end in ends]
    if ends[0] < 0 < ends[1]:
        return f"from {_singular(said[0], unit)} down to {said[1]} up"
    if not any(ends):
        return f"within {numbers.with_unit(numbers.said(10.0**-decimals, decimals), unit)} of none"
    near, far = sorted(range(2), key=lambda at: abs(ends[at]))
    way = "up" if ends[far] > 0 else "down"
    if said[near] == said[far]:
        return f"about {_singular(said[far], unit)} {way}"
    if not ends[near]:
        return f"anything up to {_singular(said[far], unit)} {way}"
    return f"between {said[near]} and {_singular(said[far], unit)} {way}"


def _singular(said: str, unit: str) -> str:
    return numbers.with_unit(said, unit)
