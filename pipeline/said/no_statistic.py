"""Words beside a number that make it no statistic: what is counted on the screen, dates, idioms."""

from __future__ import annotations

import re

from pipeline.said.word_lists import pattern, words

MONTHS = frozenset(words("plain.months"))
COUNTED_HERE = pattern(r"^(?:<of_what_kind> )?<counted_here>\b", "plain")
NUMBERED = pattern(r"\b<numbered>(?: number)?$", "plain")
MEASURED = pattern("<measured>", "plain")
IDIOM = pattern(r"\b<idioms>\b|\b50 ?[-/] ?50\b", "plain")
HOW_LONG = re.compile(r"(?:years?|seasons?|months?|weeks?|days?|summers?|hours?|minutes?)\b")
OURS = {"i", "we", "you", "i've", "we've", "you've", "i'll", "we'll", "you'll", "me", "us", "let's"}
MEAN = re.compile(r"\bon average\b|\baveraging\b|\ban average of\b")
HIT = re.compile(r"\b(?:longest|biggest|a|huge|big|mighty|lone|solitary)$")
# Places in the order, and what there always is of something: 'six balls make an over'.
IN_ORDER = re.compile(
    r"\b(?:bat|bats|batted|batting|came in|comes in|goes in|went in|promoted to|down to|slot)"
    r" (?:at|to)$|\b(?:top|bottom|leading|best)$"
)
ALWAYS = re.compile(r"^(?:\w+ )?makes? (?:an?|up an?) (?:over|innings|side|team|match)\b")
LISTED = re.compile(
    r"\b(?:section|version|chapter|rule|law|clause|footnote|appendix|paragraph|item"
    r"|page|pp? \.|fig \.|(?:part|para) \.)$"
)
CLOCK = re.compile(
    r"^(?:pm|am|o'clock|in the (?:morning|afternoon|evening)|past \w+|tonight"
    r"|tomorrow|(?:on|this|next|every) (?:mon|tues|wednes|thurs|fri|satur|sun)days?|of you)\b"
)
# Stretches of overs: 'the last ten overs', 'after forty', 'every five overs'.
PHASES = re.compile(r"\bover by over\b|\bphases?\b|\bstretches\b|\bbands?\b")
OF_OVERS = re.compile(
    r"(?:(?:middle|death|powerplay|opening|first|last|final|closing|early|end) )?overs\b"
)
EVERY = re.compile(r"(?:\b(?:every|per|each|those|these|the|in|over|of|all|any|into)|a spell of)$")
MORE_OVERS = re.compile(
    r"(?:(?:more|fewer|extra|less|additional) overs?|overs? (?:more|fewer|extra|less))\b"
)
WHEN = re.compile(r"\b(?:after|until|inside|within)(?: only| just)?$")  # of an innings
STRETCH = re.compile(r"\b(?:first|last|final|opening|next|closing|middle|end|previous|past)$")
# 'one' that stands for a thing: 'one of them', 'this one', 'no one', 'the first one'.
AS_WORD = re.compile(r"^(?:of (?!the balls)|way|another|by one|or the other|day|more|thing|side)\b")
A_ONE = re.compile(r"\b(?:this|that|the|no|any|every|each|which|another|some|only|good|last)$")
TOLD = re.compile(
    r"\b(?:by|to|from|between|about|nearly|over|than|and|up|down|at|roughly|around|under)$"
)
EACH = {"ways", "comparisons", "players", "matches", "wickets", "sixes", "fours"}
SMALL = 12  # up to here a number before another thing is a word
