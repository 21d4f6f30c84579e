"""Rules by which a number is one of overs, or a small one that is a word: 'two of them'."""

from __future__ import annotations

import re

from pipeline.said.no_statistic import (
    A_ONE,
    AS_WORD,
    EACH,
    EVERY,
    MORE_OVERS,
    OF_OVERS,
    PHASES,
    STRETCH,
    TOLD,
    WHEN,
)
from pipeline.said.number_around import Around
from pipeline.said.spoken_number import read_value
from pipeline.said.stretches import is_hedge

_MOST = 450  # overs that an innings, a match or its days may have
_LONGEST = 50  # overs of an innings that is told in phases
_OVERS_BEFORE = re.compile(r"\b(?:overs(?: from| between)?|(?:in|of|at|by|through|the) over)$")
_AFTER_ONE = re.compile(r"(?:to|and|up|down|lower|higher|-|–)\b")
_OF_OURS = re.compile(r"\b(?:the|these|those|all|both|other|my|our)$")
_OF_THEM = re.compile(
    r"(?:(?:more |others? )?of (?:them|these|those|the|us)|different|big|main|simple)\b"
)


def is_of_phases(number: Around) -> bool:
    """'Three phases: one to ten, eleven to forty'."""
    said = number.said
    fits = number.unit is None and said.whole and said.value <= _LONGEST
    return fits and bool(PHASES.search(number.all_before))


def is_when(number: Around) -> bool:
    """'Overs eleven', 'the last ten overs', 'every ten overs', 'a fifty-over match'."""
    if not (number.said.whole or WHEN.search(number.before)):
        return False
    if number.unit is not None and number.unit.name != "overs":
        return False
    first = number.said.first
    return _is_of_overs(number) and not (first > 0 and is_hedge(number.tokens, first - 1))


def _is_of_overs(number: Around) -> bool:
    before, after = number.before, number.after
    if re.match(r"overs?\b", after) and WHEN.search(before):
        return True
    if _OVERS_BEFORE.search(before) or STRETCH.search(before):
        return True
    if re.match(r"over\b(?! and)", after):
        return True
    return bool(OF_OVERS.match(after) and EVERY.search(before))


def is_of_an_over(number: Around) -> bool:
    """'An over of six'."""
    return bool(re.search(r"\bover of$", number.before))


def is_as_long(number: Around) -> bool:
    """'Thirty overs long', 'two seasons', 'one wicket'; a difference has halves, or is more."""
    said, unit = number.said, number.unit
    if unit is None:
        return False
    if unit.name == "overs":
        return said.whole and said.value <= _MOST and not MORE_OVERS.match(number.after)
    return unit.name == "seasons" or (said.value == 1 and unit.name in EACH)


def is_measured(number: Around) -> bool:
    """With a unit of ours, a part, or too large for a word: a statistic."""
    return number.unit is not None or number.said.form != "number" or not number.is_small


def is_told_as_one(number: Around) -> bool:
    """'Fell by one', 'one to two': a statistic, and not 'one of them'."""
    if not _is_one(number):
        return False
    told = TOLD.search(number.before) or _AFTER_ONE.match(number.after)
    return bool(told) and not (A_ONE.search(number.before) or AS_WORD.match(number.after))


def is_one_of_a_kind(number: Around) -> bool:
    """'This one', 'one by one'."""
    return _is_one(number)


def _is_one(number: Around) -> bool:
    return number.said.value == 1 and number.opening.kind == "word"


def is_all_there_are(number: Around) -> bool:
    """'These are the two we have.', 'the three', 'only two are'."""
    before, after = number.before, number.after
    if re.search(r"\bwe have$", before) and re.match(r"[.!]?$", after):
        return True
    if _OF_OURS.search(before):
        return True
    only = re.search(r"\b(?:only|just)$", before)
    return bool(only and re.match(r"(?:are|were|is|was|have)\b", after))


def is_of_many(number: Around) -> bool:
    """'Four of the thirty-four': a count out of another, and so a statistic."""
    tokens, at = number.tokens, number.said.last + 1
    if not number.after.startswith("of "):
        return False
    at += at < len(tokens) and tokens[at].text in ("the", "our", "those")
    many = read_value(tokens, at) if at < len(tokens) else None
    return many is not None and many.whole and many.value > number.said.value


def is_some_of_them(number: Around) -> bool:
    """'Two of them', 'three big questions'."""
    return bool(_OF_THEM.match(number.after))
