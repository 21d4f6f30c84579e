"""Rules by which a number is a way to talk: idioms, what is counted of the show, times, odds."""

from __future__ import annotations

import re

from pipeline.said.no_statistic import ALWAYS, COUNTED_HERE, HIT, HOW_LONG, IDIOM, MEAN, OURS, SMALL
from pipeline.said.number_around import Around

_SURE = (50, 80, 90, 95, 99)  # of an interval
_ROUND = (5, 10, 20, 50)  # overs, of which a felt size is told
_OFTEN = 3  # times: up to here a way to talk
_INTERVAL = re.compile(r"(?:%|per cent|percent) (?:\w+ )?(?:interval|conf|sure|ci)")
_OF_EVERY = re.compile(r"(?:for )?(?:every|each)\b")
_EVERY = re.compile(r"\b(?:every|per)$")
_TIMES_OF = re.compile(r"(?:what|as|the|of|that|its|their|in|over|from|to|$|[.,;])")
_OR_SIX = re.compile(r"(?:or|and) six\b")
_HIT_FOR = re.compile(r"\b(?:four or|for a|(?:hit|struck|smashed|going|gone) for)$")


def is_idiom(number: Around) -> bool:
    """'Fifty-fifty', 'a million-dollar question': the number itself is in it."""
    begins = len(number.before) + 1
    ends = begins + len(number.words)
    return any(
        each.start() < ends and each.end() > begins
        for each in IDIOM.finditer(f"{number.before} {number.words} {number.after}")
    )


def is_of_an_interval(number: Around) -> bool:
    """'The 95 per cent interval'."""
    return number.said.value in _SURE and bool(_INTERVAL.match(number.after))


def is_one_of_each(number: Around) -> bool:
    """'One every forty-five balls'."""
    alone = number.said.value == 1 and number.unit is None
    return alone and bool(_OF_EVERY.match(number.after))


def is_counted_often(number: Around) -> bool:
    """'Two slips, on average', 'dropped eleven times a summer': a statistic after all."""
    if HOW_LONG.match(number.after):
        return False
    if number.said.form == "number" and MEAN.search(number.sentence):
        return True
    return bool(re.match(r"times\b", number.after)) and _is_done(number)


def _is_done(number: Around) -> bool:
    """What nobody of the show did: 'I said it four times'."""
    before = {token.text for token in number.tokens[: number.said.first]}
    return number.said.value > _OFTEN and not before & {*OURS, "ways"}


def is_nought(number: Around) -> bool:
    """'Takes in zero'."""
    return number.unit is None and number.said.value == 0


def is_hundred_balls(number: Around) -> bool:
    """'Every left-hander's hundred balls'."""
    return number.said.value == 100 and number.unit is not None and number.unit.name == "balls"


def is_over_how_many(number: Around) -> bool:
    """'Five more runs every ten', 'ten balls more for every ten wickets'."""
    counted = number.unit is None or number.unit.name == "wickets"
    round_one = counted and number.said.whole and number.said.value in _ROUND
    return round_one and bool(_EVERY.search(number.before))


def is_stroke(number: Around) -> bool:
    """'The longest six'."""
    return number.unit is None and number.said.value in (4, 6) and bool(HIT.search(number.before))


def is_always_so(number: Around) -> bool:
    """'Six balls make an over'."""
    return bool(ALWAYS.match(number.after))


def is_done_again(number: Around) -> bool:
    """'Dropped twice in that innings'."""
    again = number.opening.text in ("twice", "thrice")
    return again and bool(re.match(r"(?:in|over)\b", number.after))


def is_times_of_it(number: Around) -> bool:
    """'Twice what it was': a statistic after all."""
    return number.said.form == "times" and bool(_TIMES_OF.match(number.after))


def is_other_times(number: Around) -> bool:
    """'I checked it twice today'."""
    return number.said.form == "times"


def is_crowd(number: Around) -> bool:
    """'Forty people': a statistic after all."""
    here = COUNTED_HERE.match(number.after) if number.unit is None else None
    return here is not None and here[0] == "people" and number.said.value > SMALL


def is_counted_here(number: Around) -> bool:
    """'Three slides', 'two more things'."""
    return number.unit is None and bool(COUNTED_HERE.match(number.after))


def is_to_one(number: Around) -> bool:
    """'Seven to one'."""
    if number.unit is not None:
        return False
    if re.match(r"to one\b", number.after):
        return True
    led = number.said.value == 1 and re.search(r"\w+ to$", number.before)
    return bool(led) and not re.search(r"\bfrom\b", number.before)


def is_of_a_side(number: Around) -> bool:
    """'Eleven players a side'."""
    return number.unit is not None and number.after.startswith("players a side")


def is_four_or_six(number: Around) -> bool:
    """'Hit for four or six'."""
    if not number.said.whole:
        return False
    return bool(_OR_SIX.match(number.after) or _HIT_FOR.search(number.before))
