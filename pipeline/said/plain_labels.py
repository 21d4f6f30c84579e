"""Rules by which a number is a name: of a year, a day, a chart, a place, a telephone."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.no_statistic import CLOCK, IN_ORDER, LISTED, MONTHS, NUMBERED
from pipeline.said.number_around import Around
from pipeline.said.number_table import DIGITS, TENS
from pipeline.said.spoken_number import read_value
from pipeline.said.tokens import Token

_MINUTES = 60
_RUN = 3  # digits one by one, to be a number to ring
_MAY_BE_VERBS = {"may", "march"}
_FROM_PLACE = re.compile(r"\b(?:numbers?|places?|positions?) \S+ to$")


def is_year_or_place(number: Around) -> bool:
    return number.said.form in ("year", "ordinal")


def is_in_a_name(number: Around) -> bool:
    """'Overs eleven to forty', which are a stretch of the topic's."""
    first, last = number.said.first, number.said.last
    return any(begin <= first and last <= end for begin, end in number.named)


def is_second_place(number: Around) -> bool:
    """'From number five to three'."""
    return number.said.whole and bool(_FROM_PLACE.search(number.before))


def is_last_of_a_row(number: Around) -> bool:
    """'Chart two of five'."""
    tokens, first = number.tokens, number.said.first
    at = first - 1 if first and tokens[first - 1].text == "of" else -1
    if not number.said.whole or at < 2:
        return False
    other = read_value(tokens, at - 1)
    return bool(other and other.end == at and NUMBERED.search(tokens[at - 2].text))


def is_date(number: Around) -> bool:
    """'The fourth of May', 'June 12'; 'may' and 'march' after it may be verbs."""
    after, last = number.after, number.before.rpartition(" ")[2]
    first = after.removeprefix("of ").partition(" ")[0]
    return first in MONTHS - _MAY_BE_VERBS or last in MONTHS or after.startswith("march ")


def is_name_of_its_own(number: Around) -> bool:
    """'Chart two', 'aged over sixty'."""
    return number.said.whole and bool(NUMBERED.search(number.before))


def is_listed_or_timed(number: Around) -> bool:
    """'Section four', 'at seven o'clock'."""
    if number.unit is not None:
        return False
    listed = LISTED.search(number.before) or CLOCK.match(number.after)
    return bool(listed) or _is_of_a_clock(number)


def _is_of_a_clock(number: Around) -> bool:
    """'At 3:51': what a colon joins without a space."""
    first, last = number.said.first, number.said.last
    if not number.said.whole or number.said.value >= _MINUTES:
        return False
    return _joins(number.tokens, first - 1) or _joins(number.tokens, last)


def _joins(tokens: Sequence[Token], at: int) -> bool:
    if not 0 < at < len(tokens) - 1 or tokens[at].text != ":":
        return False
    before, after = tokens[at - 1], tokens[at + 1]
    figures = before.kind == after.kind == "figure"
    return figures and before.ends == tokens[at].begins and tokens[at].ends == after.begins


def is_in_the_order(number: Around) -> bool:
    """'Batted at three', 'the top six'."""
    return number.is_small and number.unit is None and bool(IN_ORDER.search(number.before))


def is_point_of_the_talk(number: Around) -> bool:
    """'Point one: the run rate.'"""
    begins = number.opening.text == "point" and number.said.first < 3
    return begins and bool(re.match(r"[:,]", number.after))


def is_to_ring(number: Around) -> bool:
    """Figures in a row, or one that begins with a nought."""
    tokens, said, figure = number.tokens, number.said, number.opening
    if _is_spelled_out(tokens, said.first):
        return True
    if not _is_digits(figure) or said.last - said.first > 1:
        return False
    beside = [tokens[at] for at in (said.first - 1, said.last) if 0 <= at < len(tokens)]
    return any(map(_is_digits, beside)) or bool(re.match(r"0\d", figure.text))


def _is_digits(token: Token) -> bool:
    return token.kind == "figure" and token.text.isdigit()


def _is_spelled_out(tokens: Sequence[Token], at: int) -> bool:
    """'four four one': digits one by one, three or more of them."""
    first, last = at, at
    while first >= 0 and tokens[first].text in DIGITS:
        first -= 1
    while last < len(tokens) and tokens[last].text in DIGITS:
        last += 1
    alone = tokens[first].text not in ("point", *TENS) if first >= 0 else True
    return alone and tokens[at].kind == "word" and last - first - 1 >= _RUN
