"""The only place where numbers are rounded: how they are shown and how they are said.

Shown numbers use a true minus sign and thousands commas; said numbers are British English words.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from math import floor, log10

from num2words import num2words

MINUS = "\N{MINUS SIGN}"
# Endings of the plural and of the singular, the longer first.
ONE_OF = {"ies": "y", "xes": "x", "ches": "ch", "shes": "sh", "sses": "ss", "s": ""}


def rounded(value: float, decimals: int) -> Decimal:
    """Half away from zero, on the shortest decimal of the float; never a negative zero."""
    result = Decimal(repr(float(value))).quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    return abs(result) if result == 0 else result


def shown(value: float, decimals: int, signed: bool = False) -> str:
    """'4.54', '1,204', '−0.48'; with `signed` also '+0.11'."""
    number = rounded(value, decimals)
    sign = MINUS if number < 0 else "+" if signed and number > 0 else ""
    return f"{sign}{abs(number):,}"


def percent(fraction: float, decimals: int = 1, signed: bool = True) -> str:
    """A change of 0.033 as '+3.3%'."""
    return f"{shown(fraction * 100, decimals, signed)}%"


def points(value: float, decimals: int = 1) -> str:
    """A difference of two shares as '+1.1 pts'."""
    return f"{shown(value, decimals, signed=True)} pts"


def between(low: float, high: float, decimals: int) -> str:
    """An interval as '−3.0 to +0.8'."""
    return f"{shown(low, decimals, signed=True)} to {shown(high, decimals, signed=True)}"


def subtracts(first: float, second: float, difference: float, places: tuple[int, int]) -> bool:
    """Whether the values as shown, one taken from the other, give the difference as shown.

    `places` are the decimals of the values, and those of their difference.
    """
    of_values, of_difference = places
    taken = rounded(second, of_values) - rounded(first, of_values)
    told = rounded(difference, of_difference)
    return told in (taken, rounded(float(taken), of_difference))


def p_shown(p: float) -> str:
    """'p = 0.012', or 'p < 0.001'."""
    return "p < 0.001" if p < 0.001 else f"p = {shown(p, 3)}"


def bearable(half_width: float, most: int) -> int:
    """Decimals an interval of this half-width can bear: its last digit is no finer than the width.

    A half-width of 0.3 bears tenths, one of 0.6 whole numbers.
    """
    if half_width <= 0:
        return most
    return max(0, min(most, -floor(log10(2 * half_width) + 1e-9)))


def first_digit(value: float, most: int = 2) -> int:
    """Decimals with which a value that is not nought is not shown as nought, at most so many."""
    return next((d for d in range(most) if rounded(value, d)), most) if value else 0


def said(value: float, decimals: int) -> str:
    """'four point five', 'thirty-one', 'nought point three'; a whole number drops its zeros."""
    number = rounded(value, decimals)
    if number == number.to_integral_value():
        number = number.to_integral_value()
    return _words(str(number))


@cache
def _words(number: str) -> str:
    """Kept, since a brief says few numbers often; as text, since 4.5 and 4.50 are one Decimal."""
    words = str(num2words(Decimal(number), lang="en_GB"))
    return words.replace(",", "").replace("zero", "nought")


def ordinal(number: int) -> str:
    """'fourth', 'twenty-first'."""
    return str(num2words(number, lang="en_GB", to="ordinal"))


def with_unit(said_number: str, unit: str) -> str:
    """'four point five runs an over', 'one run an over', 'one percentage point'."""
    return f"{said_number} {singular(unit) if said_number == 'one' else unit}"


def figures(value: float, signed: bool = False) -> str:
    """To six significant figures, for arithmetic that is shown: '1,234,570', '−0.333354'."""
    plain = format(Decimal(f"{value:.6g}"), "+,f" if signed else ",f")
    return plain.replace("-", MINUS)


def singular(unit: str) -> str:
    """'runs an over' as 'run an over', 'boundaries' as 'boundary', 'per cent' as it is."""
    found = re.match(r"(?:percentage |dot )?\w*", unit)
    noun = found[0] if found else ""
    for plural, one in ONE_OF.items():
        if noun.endswith(plural):
            return noun.removesuffix(plural) + one + unit.removeprefix(noun)
    return unit


def counted(number: int, noun: str, plural: str | None = None) -> str:
    """'1 match', '1,204 balls'."""
    word = noun if number == 1 else plural or f"{noun}s"
    return f"{number:,} {word}"


def matches(number: int) -> str:
    return counted(number, "match", "matches")
