"""Numbers that are no statistic: years, stretches of overs, counts of what is on the screen."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.said.number_table import DIGITS, TENS
from pipeline.said.read_numbers import Said
from pipeline.said.spoken_number import read_value
from pipeline.said.tokens import Token, joined
from pipeline.said.units import Unit

MONTHS = "january february march april may june july august september october november december"
_MONTHS = set(MONTHS.split())
_COUNTED_HERE = re.compile(
    r"^(?:(?:more|other|different|short|simple|big|main|little|quick|key|full|new|whole"
    r"|extra) )?(?:slides?|charts?|graphs?|tables?|minutes?|mins?|seconds?|hours?|days?|weeks?"
    r"|months?|years?|seasons?|decades?|things?|reasons?|questions?|parts?|chapters?|beats?|videos?"
    r"|episodes?|words?|ways?|groups?|kinds?|types?|sides?|phases?|columns?|rows?|bars?|lines?"
    r"|dots?(?! balls)|colou?rs?|sentences?|sorts?|halves|halfs|stories|story|times|steps?|people"
    r"|examples?|cases?|ends?|windows?|periods?|o'clock|pages?"
    r"|figures?|topics?|caveats?|cautions?|ideas?|facts?|answers?|claims?|headlines?|clubs?|teams?"
    r"|umpires?|grounds?|competitions?|fielders?|stumps?|conclusions?|points? (?:to|i|we|here)"
    r"|verdicts?|bits?|pieces?|stages?|rules?|changes|(?<=quick )points?|(?<=main )points?"
    r"|(?<=key )points?|lists?|measures?|sets?|more (?:thing|point"
    r"|question|time)s?)\b"
)
_BEFORE = re.compile(
    r"\b(?:slides?|charts?|graphs?|figures?|tables?|numbers?|no|parts?|chapters?|beats?|steps?"
    r"|episodes?|pages?|rows?|columns?|point|question|reason|editions?|version|day|round"
    r"|season|match|game|phone|dial|tel|ring|text|aged(?: over| under)?|extension|room|gate|stand|row|page|seat|table)(?: number)?$"
)
_PHASES = re.compile(r"\bover by over\b|\bphases?\b|\bstretches\b|\bbands?\b")
_EVERY = re.compile(r"(?:\b(?:every|per|each|those|these|the|in|over|of|all|any|into)|a spell of)$")
_WHEN = re.compile(r"\b(?:after|until|inside|within)(?: only| just)?$")  # of an innings
_STRETCH = re.compile(r"\b(?:first|last|final|opening|next|closing|middle|end|previous|past)$")
_AS_WORD = re.compile(
    r"^(?:of (?!the balls)|way|another|by one|or the other|day|more|thing|side)\b"
)
# 'one' that stands for a thing: 'this one', 'no one', 'the first one'.
_A_ONE = re.compile(r"\b(?:this|that|the|no|any|every|each|which|another|some|only|good|last)$")
_TOLD = re.compile(
    r"\b(?:by|to|from|between|about|nearly|over|than|and|up|down|at|roughly|around|under)$"
)
_MEASURED = re.compile(
    r"(?:kilo|centi|milli)?met(?:re|er)s|miles|yards|feet|pounds|dollars|euros|degrees|kilos|tonnes"
    r"|litres|thousands|millions|fans|stumpings|run-?outs|injuries|tosses|penalties|reviews"
    r"|byes|misfields|overthrows|appeals|ducks|chances|drops|tickets|lbws|no-?balls|hat-?tricks|miles"
)
_LISTED = re.compile(
    r"\b(?:section|version|chapter|rule|law|clause|footnote|appendix|paragraph|item)$"
)
_CLOCK = re.compile(r"^(?:pm|am|o'clock|in the (?:morning|afternoon|evening)|past \w+)\b")
# What is said with a number and counts nothing.
_IDIOM = re.compile(
    r"\bfifty ?-? ?fifty\b|\b50 ?[-/] ?50\b|\b(?:a|one) million ?-? ?dollar\b|\bone in a million\b"
    r"|\b(?:a |one )?hundred(?: and ten)? (?:per cent|percent) (?:sure|certain|behind|right|with)\b"
    r"|\b(?:a )?hundred and ten (?:per cent|percent)\b|\btimes out of ten\b|\bsquare one\b"
    r"|\bhalf the (?:story|battle|time|reason|job|fun|answer|point)\b|\bsix of one\b"
    r"|\bhalf a dozen of the other\b|\btwo and two\b|\ba thousand (?:times|thanks|words)\b"
    r"|\bon the one hand\b|\bin two minds\b|\bnine lives\b|\ba million (?:things|ways|reasons)\b"
)
_EACH = {"ways", "comparisons", "players", "matches", "wickets", "sixes", "fours"}
_SURE = (50, 80, 90, 95, 99)  # of an interval
RUN = 3  # digits one by one, to be a number to ring
SMALL = 12  # up to here a number before another thing is a word


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
    if _is_date(before, after) or (_BEFORE.search(before) and said.whole):
        return True
    if _IDIOM.search(f"{before} {joined(tokens[said.first : said.last])} {after}"):
        return True
    if said.value in _SURE and re.match(
        r"(?:%|per cent|percent) (?:\w+ )?(?:interval|conf|sure|ci)", after
    ):
        return True
    if said.value == 1 and unit is None and re.match(r"(?:for )?(?:every|each)\b", after):
        return True  # 'one every forty-five balls'
    if unit is None and (_LISTED.search(before) or _CLOCK.match(after)):
        return True
    if said.form == "times":
        return not re.match(r"(?:what|as|the|of|that|its|their|in|over|from|to|$|[.,;])", after)
    if unit is None and (here := _COUNTED_HERE.match(after)):
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
        and _PHASES.search(joined(tokens[: said.first]))
    ):
        return True  # 'three phases: one to ten, eleven to forty'
    in_overs = said.whole or _WHEN.search(before)
    in_overs = in_overs and (unit is None or unit.name == "overs")
    return bool(in_overs and _is_overs(before, after)) or _is_word(
        tokens, said, unit, before, after
    )


def is_few(tokens: Sequence[Token], said: Said) -> bool:
    """A few of what nobody counts: 'three takeaways'; lengths and money are measured."""
    word = tokens[said.last].text if said.last < len(tokens) else ""
    return said.whole and said.value <= SMALL and not _MEASURED.match(word)


def _is_date(before: str, after: str) -> bool:
    first, last = after.partition(" ")[0], before.rpartition(" ")[2]
    if first == "of":
        first = after.split(" ")[1] if " " in after else ""
    return first in _MONTHS - {"may", "march"} or last in _MONTHS or after.startswith("march ")


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
    if re.match(r"overs?\b", after) and _WHEN.search(before):
        return True
    if re.search(
        r"\b(?:overs(?: from| between)?|(?:in|of|at|by|through|the) over)$", before
    ) or _STRETCH.search(before):
        return True
    if re.match(r"over\b(?! and)", after):
        return True
    return bool(re.match(r"overs\b", after) and _EVERY.search(before))


def _is_word(
    tokens: Sequence[Token], said: Said, unit: Unit | None, before: str, after: str
) -> bool:
    """A small number that counts no unit of ours: 'two things', 'one of them', 'the three'."""
    if re.search(r"\bover of$", before):
        return True
    if unit is not None:
        if unit.name == "overs":  # 'thirty overs long'; a difference has halves, or is more
            return said.whole and not re.match(r"overs? (?:more|fewer|extra|less)\b", after)
        return unit.name == "seasons" or (said.value == 1 and unit.name in _EACH)
    if not said.whole or said.form != "number" or said.value > SMALL:
        return False
    if said.value == 1 and tokens[said.first].kind == "word":
        told = _TOLD.search(before) or re.match(r"(?:to|and|up|down|lower|higher|-|–)\b", after)
        return not told or bool(_A_ONE.search(before) or _AS_WORD.match(after))
    if re.search(r"\bwe have$", before) and re.match(r"[.!]?$", after):
        return True
    if re.search(_BEFORE.pattern[:-1] + r" \w+ of$", before):
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
