"""The forms that a fact can be said and shown in; each is made of the fact's own fields alone."""

from __future__ import annotations

from collections.abc import Callable

from pipeline.contracts.facts import Fact
from pipeline.text import capitalised
from pipeline.wording import numbers, phrases

LEVEL = "level, to that rounding"  # spoken of a difference that rounds to nothing
PAIRS = (phrases.TIME, phrases.APART, phrases.FELT)
# The words that end a spoken form, and what they say of its sign.
WAYS = {word: sign for pair in PAIRS for word, sign in zip(pair, (-1, 1), strict=True)}


def way_of(fact: Fact) -> str:
    """The word that ends the spoken form and says which way it went, if one does."""
    last = fact.spoken.rpartition(" ")[2]
    return last if last in WAYS else ""


def sign_of(fact: Fact) -> int:
    """1 of a move up, -1 of one down, 0 of what is no move or comes out level."""
    return WAYS.get(way_of(fact), 0)


def in_form(fact: Fact, form: str) -> str | None:
    """The fact in a form of `FORMS`; None where it has none such, KeyError where nobody has.

    A form that is written with a capital begins with one.
    """
    said = FORMS[form[:1].lower() + form[1:]](fact)
    return capitalised(said) if said and form[:1].isupper() else said


def forms_of(fact: Fact) -> dict[str, str]:
    """Every form that the fact has, by its name."""
    found = {name: form(fact) for name, form in FORMS.items()}
    return {name: said for name, said in found.items() if said}


def _size(fact: Fact) -> str | None:
    """'about six per cent', 'about two per cent a season': without a direction."""
    way = way_of(fact)
    if not (way or fact.spoken == LEVEL) or fact.digits is None or fact.unit_said is None:
        return fact.spoken.removesuffix(f" {way}") if way else None
    if fact.scale != 1 or way in phrases.FELT:
        return fact.spoken.removesuffix(f" {way}")
    ends = _ends(fact)
    if fact.value is None or ends is None:
        return None
    return phrases.size(fact.value, (ends[1] - ends[0]) / 2, fact.digits, fact.unit_said)


def _number(fact: Fact) -> str | None:
    """'four and a half': as a line rounds it; of a move its size."""
    if fact.value is None or fact.digits is None:
        return None
    value = fact.value * fact.scale
    return phrases.value_said(abs(value) if way_of(fact) else value, fact.digits)


def _rounded(fact: Fact) -> str | None:
    """'four and a half an over': the number with its unit."""
    number = _number(fact)
    if number is None or not fact.unit_said:
        return None
    return numbers.with_unit(number, fact.unit_said)


def _range(ways: tuple[str, str] | None) -> Callable[[Fact], str | None]:
    """What a move could be: 'anywhere from five to ten per cent down'."""

    def said(fact: Fact) -> str | None:
        ends, own = _ends(fact), _ways(fact)
        if ends is None or own is None or not fact.unit_said:
            return None
        return phrases.range_said(*ends, fact.unit_said, own if ways == phrases.TIME else ways)

    return said


def _between(fact: Fact) -> str | None:
    """'between five and ten per cent down'; of what is no move 'between five and ten per cent'."""
    ends = _ends(fact)
    if ends is None or not fact.unit_said:
        return None
    if _ways(fact):
        return phrases.interval_said(*ends, fact.unit_said)
    low, high = phrases.ends_said(*ends)
    return phrases.both_ends(low, numbers.with_unit(high, fact.unit_said))


def _end(at: int) -> Callable[[Fact], str | None]:
    def said(fact: Fact) -> str | None:
        ends = _ends(fact)
        return phrases.ends_said(*ends)[at] if ends else None

    return said


def _fraction(fact: Fact) -> str | None:
    """'about one in seven', 'two thirds': of a share, where one is true of it; else per cent."""
    if fact.value is None or fact.unit_said != "per cent" or _ways(fact):
        return None
    return phrases.share_said(fact.value * fact.scale / 100)


def _ends(fact: Fact) -> tuple[float, float] | None:
    if fact.low is None or fact.high is None:
        return None
    return fact.low * fact.scale, fact.high * fact.scale


def _ways(fact: Fact) -> tuple[str, str] | None:
    """The two words of a move, none of what is no move."""
    if fact.spoken == LEVEL:
        return phrases.TIME
    return next((pair for pair in PAIRS if way_of(fact) in pair), None)


FORMS: dict[str, Callable[[Fact], str | None]] = {
    "said": lambda fact: fact.spoken,
    "size": _size,
    "rounded": _rounded,
    "number": _number,
    "range": _range(phrases.TIME),
    "apart": _range(phrases.APART),
    "extent": _range(None),
    "between": _between,
    "fraction": _fraction,
    "low": _end(0),
    "high": _end(1),
    "shown": lambda fact: fact.display,
    "interval": lambda fact: fact.interval,
}
