"""Why a change came, whatever is said to have made it; and a question's answer that says so."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from pipeline.said.caused import changes_there
from pipeline.said.word_lists import pattern

if TYPE_CHECKING:
    from pipeline.said.sounded import Sounded

_BECAUSE = re.compile(r"\b(?:just |simply |only |all )?because\b(?! of\b)")
_FOLLOWS = re.compile(
    r"\bas a (?:(?:direct|clear|plain|simple|straight) )?(?:result|consequence)\b(?! of)"
)
_SO = (
    r"\b(?:that|this|which)(?:'s| is| was) (?:(?:exactly|precisely|largely|partly|all) )*"
    r"(?:why|how(?! (?:far|much|many|big|often|it|we)\b)|what(?= (?:has |have )?<verbs>\b))\b"
)
_REASON = (
    r"\b(?:the|its|their|one|your) (?:\w+ )?<of_reasons>(?: for (?:it|that|this))?"
    r"(?:'s| is| was| lies|:)"
)
_REASON_WHY = (
    r"\bthe (?:\w+ )?<of_reasons> (?!is\b|was\b)[^.;]{5,70}? (?:is|was)\b(?! that\b| not\b)"
)
_HENCE = re.compile(
    r"(?<=, )(?:and )?so (?!(?:far|that|much|many|did|does|has|is|was|it)\b)|(?<=, )hence\b"
)
_WHAT = re.compile(
    r"\bwhat(?:'s| is| was| has| had)?\b.*|\bwho\b.*|\bwhy\b.*|\bhow come\b.*|\b(?:the )?"
    r"(?:reason|cause|culprit|explanation|secret|answer)\b.*"
)
_YES = re.compile(
    r"^(?:oh )?(?:yes|yep|yeah|of course|absolutely|certainly|it did|it does|it has|it was|they did"
    r"|you bet|sure did|without|indeed|too right|obviously|clearly|definitely|surely|did it ever)\b"
)
_WHY = re.compile(r"\b(?:why|how come|what (?:for|made))\b")
_FEW = 9  # words of an answer that only names what it was


def reasons(told: str, heard: Sounded) -> Iterator[re.Match[str]]:
    """'It fell because nobody mows any more', 'they turned to it, and that's why it fell'."""
    for match in _BECAUSE.finditer(told):
        first, last = _main_clause(told, match)
        reason = told[match.end() :] if match.start() else told[match.end() : first]
        if not is_of_the_telling(reason) and _is_changed(told, heard, first, last):
            yield match
    for match in pattern(_SO, "causes").finditer(told):
        before = told[: match.start()]
        so = _is_changed(told, heard, match.end(), len(told)) or _is_taken_up(told, heard, match)
        if so and not is_of_the_telling(before):
            yield match
    for match in _HENCE.finditer(told):
        if _is_no_number(told, heard, match.start()) and _is_changed(
            told, heard, match.end(), len(told)
        ):
            yield match
    for match in _FOLLOWS.finditer(told):
        rest = told[: match.start()] + told[match.end() :]
        if not is_of_the_telling(rest) and _is_changed(told, heard, 0, len(told)):
            yield match
    for match in pattern(_REASON_WHY, "causes").finditer(told):
        after = told[match.end() :]
        if not is_of_the_telling(after) and _is_changed(told, heard, *match.span()):
            yield match
    for match in pattern(_REASON, "causes").finditer(told):
        after = told[match.end() :]
        if not is_of_the_telling(after) and changes_there(told, heard, 0, match.start()):
            yield match


def _main_clause(told: str, match: re.Match[str]) -> tuple[int, int]:
    """What is so because of it: before the word, or after the comma where that comes first."""
    if told[: match.start()].strip(" ,;:—"):
        return 0, match.start()
    comma = told.find(",", match.end())
    return (comma, len(told)) if comma > 0 else (len(told), len(told))


def _is_changed(told: str, heard: Sounded, begins: int, ends: int) -> bool:
    """Whether a change is told there, and not what we do or say."""
    said = pattern(r"\b(?:we|i|let's|you)\b|\?", "causes").search(told[begins:ends])
    return not said and changes_there(told, heard, begins, ends)


def _is_taken_up(told: str, heard: Sounded, match: re.Match[str]) -> bool:
    """'Spinners can't grip it, which is why they leak more': of whom it is was told before."""
    they = re.match(r" (?:they|it|he|she)\b", told[match.end() :])
    return bool(they) and _is_changed(told, heard, 0, len(told))


def _is_no_number(told: str, heard: Sounded, ends: int) -> bool:
    """Whether nothing was counted before: what follows from numbers is said by them."""
    counted = any(heard.tokens[each.said.first].begins < ends for each in heard.numbers)
    able = re.search(r"\b(?:can|can't|cannot|could|couldn't|able)\b", told[:ends])
    changed = not able and _is_changed(told, heard, 0, ends)
    return not counted and not changed and not is_of_the_telling(told[:ends])


def is_of_the_telling(reason: str) -> bool:
    """Whether words tell of charts, of luck or of who tells it, and not of the game."""
    return bool(pattern(r"\b<of_the_telling>\b", "causes").search(reason))


def answers(asked: str, told: str, names_event: bool, made: bool) -> bool:
    """Whether a sentence answers what made a change with the event, or with a yes.

    `made`: the question has a claim of a cause in it.
    """
    if made and _YES.match(told):
        return True
    short = len(told.split()) <= _FEW or told.find(",") > 0
    if _WHY.search(asked) and _BECAUSE.match(told):
        return not is_of_the_telling(told)
    of_it = pattern(r"\b<verbs>\b|\b<reasons>\b|behind", "causes").search(asked)
    by = names_event or pattern(r"\b<agents>\b", "causes").search(told)
    return bool(_WHAT.search(asked) and of_it and short and by and _names_only(told))


def _names_only(told: str) -> bool:
    """Whether it begins with what it was: 'The new rule, plain and simple.'"""
    first = re.split(r"[,.:;—]", told)[0].split()
    return len(first) <= _FEW - 3 and not re.search(r"\b(?:not|n't|we|can't|nobody)\b", told)
