"""What a clause says of a number: that it moved or stayed, or something else altogether."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence, Set

from pipeline.contracts.finding import Finding
from pipeline.said.no_statistic import MEASURED
from pipeline.said.sounded import Sounded
from pipeline.said.targets import EVENT, NO_GROUPS
from pipeline.said.tokens import Token, joined
from pipeline.said.topic_known import Known
from pipeline.said.up_or_down import way_of_word
from pipeline.said.word_lists import pattern, words

_SAME = r"\b(?:<same>|<same_phrases>|<sameness.stayed>|<sameness.nothing>)\b"
_MOVED = r"\b(?:<verbs>|<moved>|<comparatives>|<sayings>)\b"
_DID_NOT = re.compile(r"\b(?:(?:did|does|do) not|didn't|doesn't|don't)$")
_OF_BALLS = re.compile(
    r"\bbowl(?:s|ed)? (?:\w+ ){0,2}?(?:more|less|fewer)\b(?! dot)|\bused to bowl\b"
    r"|\b(?:larger|bigger|greater|smaller) (?:part|share|slice) of"
)
_THAN_IN_A_YEAR = re.compile(r"\bthan (?:it was |they were )?(?:in |during |the )?(?:19|20)\d\d\b")
_SET_BESIDE = re.compile(r"\bthan\b|\b(?:below|above) (?:what|that|those|the)\b")
_CONCLUDES = re.compile(r"(?:so|hence|thus|making|meaning)\b.*\b(?:is|are|was|were|making) ")
_IS = {"is", "was", "are", "were"}
_THEN = r"\bthan (?:(?:it|they|he|she|we|you|\w+s) (?:ever )?used to|before)\b"


def says(heard: Sounded, begins: int, ends: int, said: str, known: Known) -> bool:
    return stays(said) or _moves(heard, begins, ends, known)


def stays(said: str) -> bool:
    """'It held', 'the run rate didn't': that nothing moved."""
    return bool(pattern(_SAME, "stated").search(said) or _DID_NOT.search(said))


def _moves(heard: Sounded, begins: int, ends: int, known: Known) -> bool:
    names = [each for each in heard.mentions if each.cut in (EVENT, "region")]
    inside = {at for each in names for at in range(each.begins, each.ends)}  # 'up country'
    places = [at for at in range(begins, ends) if at not in inside]
    if pattern(_MOVED, "stated").search(joined([heard.tokens[at] for at in places])):
        return True
    return any(_goes(heard.tokens, at, known) for at in places)


def ranks(said: str, names: Mapping[str, Set[str]]) -> bool:
    """'Left-handers clear the rope more than right-handers': two groups, and which has more."""
    two = any(len(values) > 1 for cut, values in names.items() if cut not in NO_GROUPS)
    return two and bool(re.search(r"\b(?:more|less) than\b", said))


def _goes(tokens: Sequence[Token], at: int, known: Known) -> bool:
    """Whether a word says up or down, and neither of the event, a ball or a way: 'up the hill'."""
    before = tokens[at - 1].text if at else ""
    done_to = before in words("stated.being") and tokens[at].text in words("stated.done_to")
    grows = known.causes.is_event(before) and tokens[at].text in words("causes.grows")
    after = tokens[at + 1].text if at + 1 < len(tokens) else ""
    caught = tokens[at].text == "behind" and before in words("stated.behind_it")
    there = tokens[at].text in ("up", "down") and after == "the" and before not in _IS
    return bool(way_of_word(tokens, at)) and not (done_to or grows or caught or there)


def is_of_other(said: str, then_and_now: bool) -> bool:
    """Whether a clause tells of another thing than the change itself: of its drift, of a wish.

    `then_and_now`: the sentence sets what used to be against what is.
    """
    rest = pattern(_THEN, "stated").sub("", said)
    rest = rest.replace("used to", "") if then_and_now else rest
    return bool(pattern(r"\b<other>(?!\w)", "stated").search(rest))


def counts_only(said: str, names: Mapping[str, Set[str]]) -> bool:
    """'Left-handers are rarer': how many there are of a group, and no measure of it."""
    return "measure" not in names and bool(pattern(r"\b<counts>\b", "stated").search(said))


def is_measured(heard: Sounded, begins: int, ends: int) -> bool:
    """Whether a number of a clause is of no statistic: 'the ball moved two degrees'."""
    return any(
        begins <= each.said.first < ends
        and MEASURED.fullmatch(joined(heard.tokens[each.said.last : each.said.last + 1]))
        for each in heard.numbers
    )


def compares_others(
    names: Mapping[str, Set[str]],
    every: Mapping[str, Set[str]],
    said: str,
    found: Sequence[Finding],
    known: Known,
) -> bool:
    """'Pace is dearer than spin' by the sea: of two groups that no finding sets side by side."""
    if not (_SET_BESIDE.search(said) or _CONCLUDES.match(said)) or not found:
        return False
    if _THAN_IN_A_YEAR.search(said):
        return True
    between = {
        target.between for target in known.changes if target.finding and target.finding in found
    }
    return any(
        cut in names and len(values) > 1 and cut not in (*NO_GROUPS, *between)
        for cut, values in every.items()
    )


def is_of_balls(said: str, found: Sequence[Finding]) -> bool:
    """'Pace bowled less': how many balls it had, where the finding is of what they came to."""
    shares = bool(found) and all(finding.measure.endswith("share") for finding in found)
    return tells_balls(said) and not shares


def tells_balls(said: str) -> bool:
    return bool(_OF_BALLS.search(said))
