"""Numbers that are no statistic: years, stretches of overs, counts of what is on the screen."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.no_statistic import (
    A_ONE,
    ALWAYS,
    AS_WORD,
    BEFORE,
    CLOCK,
    COUNTED_HERE,
    EACH,
    EVERY,
    IDIOM,
    LISTED,
    MEASURED,
    MONTHS,
    ORDER,
    PHASES,
    RUN,
    SMALL,
    STRETCH,
    SURE,
    TOLD,
    WHEN,
)
from pipeline.said.number_table import DIGITS, TENS
from pipeline.said.read_numbers import Said
from pipeline.said.spoken_number import read_value
from pipeline.said.stretches import is_hedge
from pipeline.said.tokens import Token, joined
from pipeline.said.units import Unit


def is_plain(
    tokens: Sequence[Token], said: Said, unit: Unit | None, named: Sequence[tuple[int, int]]
) -> bool:
    """Whether it is no statistic by its own words; `named` are what names of subjects take up."""
    if said.form in ("year", "ordinal"):
        return True
    if any(begin <= said.first and said.last <= end for begin, end in named):
        return True
    before = joined(tokens[max(0, said.first - 4) : said.first])
    after = joined(tokens[said.last : said.last + 5])
    if re.search(r"\b(?:numbers?|places?|positions?) \S+ to$", before) and said.whole:
        return True
    if _is_date(before, after) or (BEFORE.search(before) and said.whole):
        return True
    if _is_idiom(before, joined(tokens[said.first : said.last]), after):
        return True
    if said.value in SURE and re.match(
        r"(?:%|per cent|percent) (?:\w+ )?(?:interval|conf|sure|ci)", after
    ):
        return True
    if said.value == 1 and unit is None and re.match(r"(?:for )?(?:every|each)\b", after):
        return True  # 'one every forty-five balls'
    if unit is None and (LISTED.search(before) or CLOCK.match(after)):
        return True
    if ALWAYS.match(after) or (said.whole and said.value <= SMALL and _is_order(before, unit)):
        return True
    if tokens[said.first].text in ("twice", "thrice") and re.match(r"(?:in|over)\b", after):
        return True  # 'dropped twice in that innings'
    if said.form == "times":
        return not re.match(r"(?:what|as|the|of|that|its|their|in|over|from|to|$|[.,;])", after)
    if unit is None and (here := COUNTED_HERE.match(after)):
        return here[0] != "people" or said.value <= SMALL
    if tokens[said.first].text == "point" and re.match(r"[:,]", after) and said.first < 3:
        return True  # 'Point one: the run rate.'
    if (re.match(r"to one\b", after) and unit is None) or (
        re.search(r"\w+ to$", before) and said.value == 1 and unit is None
        and not re.search(r"\bfrom\b", before)
    ):  # fmt: skip
        return True  # 'seven to one'
    if _is_call(tokens, said) or (unit and after.startswith("players a side")):
        return True
    if said.whole and (
        re.match(r"(?:or|and) six\b", after)
        or re.search(r"\b(?:four or|for a|(?:hit|struck|smashed|going|gone) for)$", before)
    ):
        return True  # 'hit for four or six'
    if (
        unit is None
        and said.whole
        and said.value <= 50
        and PHASES.search(joined(tokens[: said.first]))
    ):
        return True  # 'three phases: one to ten, eleven to forty'
    in_overs = (said.whole or WHEN.search(before)) and (unit is None or unit.name == "overs")
    hedged = said.first > 0 and is_hedge(tokens, said.first - 1)
    return bool(in_overs and not hedged and _is_overs(before, after)) or _is_word(
        tokens, said, unit, before, after
    )


def _is_order(before: str, unit: Unit | None) -> bool:
    """'Batted at three', 'the top six'."""
    return unit is None and bool(ORDER.search(before))


def _is_idiom(before: str, number: str, after: str) -> bool:
    """'Fifty-fifty', 'a million-dollar question': the number itself is in it."""
    begins = len(before) + 1
    return any(
        each.start() < begins + len(number) and each.end() > begins
        for each in IDIOM.finditer(f"{before} {number} {after}")
    )


def is_few(tokens: Sequence[Token], said: Said) -> bool:
    """A few of what nobody counts: 'three takeaways'; lengths and money are measured."""
    word = tokens[said.last].text if said.last < len(tokens) else ""
    return said.whole and said.value <= SMALL and not MEASURED.match(word)


def _is_date(before: str, after: str) -> bool:
    first, last = after.partition(" ")[0], before.rpartition(" ")[2]
    if first == "of":
        first = after.split(" ")[1] if " " in after else ""
    return first in MONTHS - {"may", "march"} or last in MONTHS or after.startswith("march ")


def _is_call(tokens: Sequence[Token], said: Said) -> bool:
    """Figures in a row, or one that begins with a nought: a number to ring."""
    if _is_spelled_out(tokens, said.first):
        return True
    figure = tokens[said.first]
    if figure.kind != "figure" or not figure.text.isdigit() or said.last - said.first > 1:
        return False
    beside = [tokens[at] for at in (said.first - 1, said.last) if 0 <= at < len(tokens)]
    return any(each.kind == "figure" and each.text.isdigit() for each in beside) or bool(
        re.match(r"0\d", figure.text)
    )


def _is_spelled_out(tokens: Sequence[Token], at: int) -> bool:
    """'four four one': digits one by one, three or more of them."""
    first, last = at, at
    while first >= 0 and tokens[first].text in DIGITS:
        first -= 1
    while last < len(tokens) and tokens[last].text in DIGITS:
        last += 1
    alone = tokens[first].text not in ("point", *TENS) if first >= 0 else True
    return alone and tokens[at].kind == "word" and last - first - 1 >= RUN


def _is_overs(before: str, after: str) -> bool:
    """'overs eleven', 'the last ten overs', 'every ten overs', 'a fifty-over match'."""
    if re.match(r"overs?\b", after) and WHEN.search(before):
        return True
    if re.search(
        r"\b(?:overs(?: from| between)?|(?:in|of|at|by|through|the) over)$", before
    ) or STRETCH.search(before):
        return True
    if re.match(r"over\b(?! and)", after):
        return True
    return bool(re.match(r"overs\b", after) and EVERY.search(before))


def _is_word(
    tokens: Sequence[Token], said: Said, unit: Unit | None, before: str, after: str
) -> bool:
    """A small number that counts no unit of ours: 'two things', 'one of them', 'the three'."""
    if re.search(r"\bover of$", before):
        return True
    if unit is not None:
        if unit.name == "overs":  # 'thirty overs long'; a difference has halves, or is more
            return said.whole and not re.match(r"overs? (?:more|fewer|extra|less)\b", after)
        return unit.name == "seasons" or (said.value == 1 and unit.name in EACH)
    if not said.whole or said.form != "number" or said.value > SMALL:
        return False
    if said.value == 1 and tokens[said.first].kind == "word":
        told = TOLD.search(before) or re.match(r"(?:to|and|up|down|lower|higher|-|–)\b", after)
        return not told or bool(A_ONE.search(before) or AS_WORD.match(after))
    if re.search(r"\bwe have$", before) and re.match(r"[.!]?$", after):
        return True
    if re.search(BEFORE.pattern[:-1] + r" \w+ of$", before):
        return True
    if re.search(r"\b(?:the|these|those|all|both|other|my|our)$", before):
        return True
    if re.search(r"\b(?:only|just)$", before) and re.match(r"(?:are|were|is|was|have)\b", after):
        return True
    if re.match(r"of (?:the |our |those )?", after) and _of_many(tokens, said):
        return False
    return bool(
        re.match(
            r"(?:(?:more |others? )?of (?:them|these|those|the"
            r"|us)|different|big|main|simple)\b",
            after,
        )
    )


def _of_many(tokens: Sequence[Token], said: Said) -> bool:
    """'four of the thirty-four': a count out of another."""
    at = said.last + 1
    if at < len(tokens) and tokens[at].text in ("the", "our", "those"):
        at += 1
    many = read_value(tokens, at) if at < len(tokens) else None
    return many is not None and many.whole and many.value > said.value
