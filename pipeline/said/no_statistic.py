"""Words beside a number that make it no statistic: what is counted on the screen, dates, idioms."""

from __future__ import annotations

import re

MONTHS = frozenset(
    [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ]
)
COUNTED_HERE = re.compile(
    r"^(?:(?:more|other|different|short|simple|big|main|little|quick|key|full|new|whole"
    r"|extra) )?(?:slides?|charts?|graphs?|tables?|minutes?|mins?|seconds?|hours?|days?|weeks?"
    r"|months?|years?|seasons?|decades?|things?|reasons?|questions?|parts?|chapters?|beats?|videos?"
    r"|episodes?|words?|ways?|groups?|kinds?|types?|sides?|phases?|columns?|rows?|bars?|lines?"
    r"|dots?(?! balls)|colou?rs?|sentences?|sorts?|halves|halfs|stories|story|times|steps?|people"
    r"|examples?|cases?|ends?|windows?|periods?|o'clock|pages?"
    r"|figures?|topics?|caveats?|cautions?|ideas?|facts?|answers?|claims?|headlines?|clubs?|teams?"
    r"|umpires?|grounds?|competitions?|fielders?|stumps?|conclusions?|points? (?:to|i|we|here)"
    r"|verdicts?|bits?|pieces?|stages?|rules?|changes|(?<=quick )points?|(?<=main )points?"
    r"|(?<=key )points?|lists?|measures?|sets?|stretches|more (?:thing|point"
    r"|question|time)s?)\b"
)
BEFORE = re.compile(
    r"\b(?:slides?|charts?|graphs?|figures?|tables?|numbers?|no|parts?|chapters?|beats?|steps?"
    r"|episodes?|pages?|rows?|columns?|point|question|reason|editions?|version|day|round"
    r"|season|match|game|phone|dial|tel|ring|text|aged(?: over| under)?|exit|junction|platform"
    r"|extension|room"
    r"|seat|channel|camera|studio|bus|gate)(?: number)?$"
)
PHASES = re.compile(r"\bover by over\b|\bphases?\b|\bstretches\b|\bbands?\b")
EVERY = re.compile(r"(?:\b(?:every|per|each|those|these|the|in|over|of|all|any|into)|a spell of)$")
WHEN = re.compile(r"\b(?:after|until|inside|within)(?: only| just)?$")  # of an innings
STRETCH = re.compile(r"\b(?:first|last|final|opening|next|closing|middle|end|previous|past)$")
AS_WORD = re.compile(r"^(?:of (?!the balls)|way|another|by one|or the other|day|more|thing|side)\b")
# 'one' that stands for a thing: 'this one', 'no one', 'the first one'.
A_ONE = re.compile(r"\b(?:this|that|the|no|any|every|each|which|another|some|only|good|last)$")
TOLD = re.compile(
    r"\b(?:by|to|from|between|about|nearly|over|than|and|up|down|at|roughly|around|under)$"
)
MEASURED = re.compile(
    r"(?:kilo|centi|milli)?met(?:re|er)s|miles|yards|feet|pounds|dollars|euros|degrees|kilos|tonnes"
    r"|litres|knots|inches|acres|tons|viewers|thousands|millions|fans|stumpings|run-?outs"
    r"|injuries|tosses|penalties|reviews"
    r"|byes|misfields|overthrows|appeals|ducks|chances|drops|tickets|lbws|no-?balls|hat-?tricks"
    r"|miles"
)
# Places in the order, and what there always is of something: 'six balls make an over'.
ORDER = re.compile(
    r"\b(?:bat|bats|batted|batting|came in|comes in|goes in|went in|promoted to|down to|slot)"
    r" (?:at|to)$|\b(?:top|bottom|leading|best)$"
)
ALWAYS = re.compile(r"^(?:\w+ )?makes? (?:an?|up an?) (?:over|innings|side|team|match)\b")
LISTED = re.compile(
    r"\b(?:section|version|chapter|rule|law|clause|footnote|appendix|paragraph|item)$"
)
CLOCK = re.compile(
    r"^(?:pm|am|o'clock|in the (?:morning|afternoon|evening)|past \w+|tonight"
    r"|tomorrow|(?:on|this|next|every) (?:mon|tues|wednes|thurs|fri|satur|sun)days?|of you)\b"
)
# What is said with a number and counts nothing.
IDIOM = re.compile(
    r"\bfifty ?-? ?fifty\b|\b50 ?[-/] ?50\b|\b(?:a|one) million ?-? ?dollar\b|\bone in a million\b"
    r"|\b(?:a |one )?hundred(?: and ten)? (?:per cent|percent) (?:sure|certain|behind|right|with)\b"
    r"|\b(?:a )?hundred and ten (?:per cent|percent)\b|\btimes out of ten\b|\bsquare one\b"
    r"|\bhalf the (?:story|battle|time|reason|job|fun|answer|point)\b|\bsix of one\b"
    r"|\bhalf a dozen of the other\b|\btwo and two\b|\ba thousand (?:times|thanks|words)\b"
    r"|\bon the one hand\b|\bin two minds\b|\bnine lives\b|\ba million (?:things|ways|reasons)\b"
)
EACH = {"ways", "comparisons", "players", "matches", "wickets", "sixes", "fours"}
SURE = (50, 80, 90, 95, 99)  # of an interval
RUN = 3  # digits one by one, to be a number to ring
SMALL = 12  # up to here a number before another thing is a word
