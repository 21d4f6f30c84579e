"""The words of which spoken numbers are made, with their values."""

from __future__ import annotations

from pipeline.wording import numbers

ONES = {numbers.said(at, 0): at for at in range(1, 10)}
TEENS = {numbers.said(at, 0): at for at in range(10, 20)}
TENS = {numbers.said(at, 0): at for at in range(20, 100, 10)}
ZERO = {"nought": 0, "zero": 0, "nil": 0, "oh": 0, "naught": 0, "o": 0}
SMALL = {**ONES, **TEENS, **TENS, "nought": 0, "zero": 0, "naught": 0, "nil": 0}
LARGE = {"hundred": 100, "thousand": 1_000, "million": 1_000_000, "billion": 1_000_000_000}
DIGITS = {**ONES, **ZERO}
PARTS = {
    **{"hundredth": 100, "hundredths": 100},
    **{"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4},
    **{"fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "seventh": 7, "eighth": 8, "eighths": 8},
    **{"tenth": 10, "tenths": 10, "ninth": 9, "ninths": 9},
    **{"eleventh": 11, "elevenths": 11, "twelfth": 12, "twelfths": 12},
    **{"fifteenth": 15, "twentieth": 20, "sixteenth": 16, "thirteenth": 13, "fourteenth": 14},
}
# Places in a row before they are parts: 'a twelfth man' is no part.
PLACES = {"ninth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth"}
PLACES |= {"twentieth"}
FRACTIONS = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅓": (1, 3), "⅔": (2, 3), "⅕": (1, 5)}
FRACTIONS |= {"⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅛": (1, 8), "⅜": (3, 8)}
TIMES = {
    **{"twice": 2.0, "double": 2.0, "doubled": 2.0, "doubling": 2.0, "thrice": 3.0},
    **{"triple": 3.0, "tripled": 3.0, "treble": 3.0, "trebled": 3.0, "halved": 0.5},
    **{"quadrupled": 4.0, "halving": 0.5, "doubles": 2.0, "halves": 0.5},
}
ORDER = {tuple(numbers.ordinal(at).split("-")): at for at in range(2, 100)}
ORDINALS = {numbers.ordinal(at) for at in range(3, 32)}
