"""'Spin fell more than pace did': changes of two groups compared, which only a gap can carry."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence, Set

from pipeline.contracts.finding import Gap
from pipeline.said.cautious import is_doubted, is_held_back, is_question, plain, surely
from pipeline.said.comparison_patterns import CHANGE, COMPARISONS, NOBODY_MOVED, Comparison
from pipeline.said.masked_names import masked
from pipeline.said.sounded import Sounded
from pipeline.said.subjects import MEASURE
from pipeline.said.targets import NO_GROUPS, OVERS, WHOLE
from pipeline.said.terms import Mention
from pipeline.said.topic_known import Known
from pipeline.said.word_lists import pattern

_RANKED_BY_NOT = re.compile(r"(?:n't|\bnot|\bnever|\bno|\bnobody)(?: \w+){0,2} $")


def compared(
    text: str, heard: Sounded, carried: Mapping[str, Set[str]], known: Known
) -> re.Match[str] | None:
    """Where it is said that one group's change was the larger, which no finding carries."""
    bare = masked(plain(text), heard, "_", kept={OVERS})  # 'the slow men' slow nothing
    told = surely(_without_sizes(bare, heard))
    if not _may_compare(told, heard) or is_question(text):
        return None
    if pattern(r"\b<no_ranking>\b", "comparisons").search(told):
        return None
    for comparison, match in _matches(told):
        groups = _groups(told, comparison, match, heard, carried)
        if groups and not _is_doubted(text, match) and not _is_denied(text, match):
            return None if _is_carried(groups, heard, carried, known) else match
    return None


def _may_compare(told: str, heard: Sounded) -> bool:
    """Whether a sentence names a group at all, or two measures; most do not, and cost nothing."""
    measures = {min(each.values) for each in heard.mentions if each.cut == MEASURE}
    grouped = len(measures) > 1 or bool(_by_cut(heard.mentions))
    return grouped or bool(pattern(r"\b<both>\b", "comparisons").search(told))


def _is_doubted(text: str, match: re.Match[str]) -> bool:
    """'Nobody moved as much' doubts nothing by words of its own."""
    own = pattern(NOBODY_MOVED, "comparisons").match(match[0])
    begins, ends = match.span()
    return is_doubted(text[:begins] + "_" * (ends - begins) + text[ends:] if own else text, begins)


def _matches(told: str) -> Iterator[tuple[Comparison, re.Match[str]]]:
    moves = None
    for comparison in COMPARISONS:
        compiled = pattern(comparison.template, "comparisons")
        for match in compiled.finditer(told):
            if comparison.moves and moves is None:
                moves = bool(pattern(rf"\b{CHANGE}\b", "comparisons").search(told))
            if moves or not comparison.moves:
                yield comparison, _shortest(compiled, told, match)


def _shortest(compiled: re.Pattern[str], told: str, match: re.Match[str]) -> re.Match[str]:
    """From the last change on that it may begin with: 'shift is the greater'."""
    while (later := compiled.search(told, match.start() + 1)) and later.end() == match.end():
        match = later
    return match


def _is_denied(text: str, match: re.Match[str]) -> bool:
    """Whether others say it, or it is denied; 'did not rise as much as' ranks two changes too."""
    told = plain(text)
    ranked = _RANKED_BY_NOT.search(told[: match.start()])
    begins = ranked.start() if ranked else match.start()
    return is_held_back(text, begins)


def _without_sizes(told: str, heard: Sounded) -> str:
    """'less than one per cent' compares no groups."""
    for number in heard.numbers:
        if number.hedge:
            first = max(0, number.said.first - len(number.hedge.split()))
            begins, ends = heard.tokens[first].begins, heard.tokens[number.said.first].begins
            told = told[:begins] + "_" * (ends - begins) + told[ends:]
    return told


def _groups(
    told: str,
    comparison: Comparison,
    match: re.Match[str],
    heard: Sounded,
    carried: Mapping[str, Set[str]],
) -> dict[str, Set[str]]:
    """By cut the groups that are compared: two of the sentence, or one with one before it.

    Of a whole the other group is all of them: 'further than the overall figure'.
    """
    every = _by_cut(heard.mentions)
    behind = _by_cut([m for m in heard.mentions if heard.tokens[m.begins].begins >= match.start()])
    found = {cut: values for cut, values in every.items() if len(values) > 1}
    if comparison.objects:
        where = re.search(r"\b(?:at|in) the\b", match[0])  # 'costs more at the death than'
        return {cut: v for cut, v in behind.items() if len(v) > 1 and not (where and cut == OVERS)}
    if found := found or _measures(told, match, heard):
        return found
    if comparison.alone or pattern(r"\b<of_two>\b", "comparisons").search(told):
        return {cut: values for cut, values in every.items() if cut != OVERS or comparison.alone}
    if pattern(r"\b(?:<than>|<fared>|<more>|<exceed_verbs>)\b", "comparisons").search(match[0]):
        than = pattern(r"\b<than>\b", "comparisons").search(match[0])
        own = behind if than else every
        found = {cut: {*carried.get(cut, ()), *values} for cut, values in own.items()}
        found = {cut: values for cut, values in found.items() if len(values) > 1}
    if not found and _two_unnamed(told, match, every):
        return {"": {"one", "other"}}
    if not found and pattern(r"\b(?:than|as) (?:\w+ ){0,4}?<whole>\b", "comparisons").search(told):
        found = {cut: {*values, WHOLE} for cut, values in every.items()}
    return found


def _measures(told: str, match: re.Match[str], heard: Sounded) -> dict[str, Set[str]]:
    """'Its share fell harder than its economy': two measures, one of them behind 'than'."""
    if not pattern(r"\bthan (?:\w+ ){0,5}$", "comparisons").search(told[: _last_measure(heard)]):
        return {}
    if not pattern(r"\b<than>\b", "comparisons").search(told[match.start() :]):
        return {}
    named = {min(each.values) for each in heard.mentions if each.cut == MEASURE}
    return {MEASURE: named} if len(named) > 1 else {}


def _last_measure(heard: Sounded) -> int:
    """The character at which it begins; 0 of none."""
    return max(
        (heard.tokens[m.begins].begins for m in heard.mentions if m.cut == MEASURE), default=0
    )


def _two_unnamed(told: str, match: re.Match[str], every: Mapping[str, Set[str]]) -> bool:
    """'Both kinds shifted equally', or two groups of different cuts: 'the left arm outdid spin'."""
    if pattern(r"\b<both>\b", "comparisons").search(told):
        return True
    return len(set(every) - {OVERS}) > 1 and bool(
        pattern(r"\b<exceed_verbs>$", "comparisons").search(match[0])
    )


def _by_cut(mentions: Sequence[Mention]) -> dict[str, Set[str]]:
    """The groups that are named; a word that may be either is one group, and not two."""
    found: dict[str, Set[str]] = {}
    for each in mentions:
        if each.cut not in NO_GROUPS:
            found[each.cut] = found.get(each.cut, set()) | {min(each.values)}
    return found


def _is_carried(
    groups: Mapping[str, Set[str]], heard: Sounded, carried: Mapping[str, Set[str]], known: Known,
) -> bool:  # fmt: skip
    """Whether a gap that changed is one between these groups, in the overs that are named."""
    named = set(_by_cut(heard.mentions).get(OVERS, set())) - {WHOLE}
    for target in known.changes:
        finding = target.finding
        if not isinstance(finding, Gap) or finding.verdict != "changed":
            continue
        overs = named or carried.get(OVERS) or set()
        own = target.names.get(OVERS)
        fits = own in overs if own else not named
        if set(finding.sides) <= set(groups.get(target.between, ())) and fits:
            return True
    return False


def gaps_of(names: Mapping[str, Set[str]], known: Known) -> list[Gap]:
    """The gaps between groups that are named, in the overs that are named with them."""
    found = []
    for target in known.changes:
        finding, overs = target.finding, target.names.get(OVERS)
        if isinstance(finding, Gap) and set(finding.sides) <= names.get(target.between, set()):
            named = names.get(OVERS)
            if overs in named if overs and named else not named:
                found.append(finding)
    return found
