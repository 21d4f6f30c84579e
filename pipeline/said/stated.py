"""A change, or that nothing changed, stated as a fact where the data can't tell."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence, Set

from pipeline.contracts.finding import Finding, Gap
from pipeline.contracts.script_check import NumberChecked
from pipeline.said.cautious import (
    holds_back,
    is_cautious,
    is_of_others,
    is_question,
    plain,
)
from pipeline.said.clause_says import (
    compares_others,
    counts_only,
    is_measured,
    is_of_balls,
    is_of_other,
    ranks,
    says,
    tells_balls,
)
from pipeline.said.compared_changes import gaps_of
from pipeline.said.meant import names_in
from pipeline.said.sentence_clauses import clauses, last_name, names_of, with_asides
from pipeline.said.sounded import Sounded
from pipeline.said.targets import CONTROL, EVENT, WINDOW
from pipeline.said.tokens import joined
from pipeline.said.topic_known import Known
from pipeline.said.turn_told import rates_of, turn_of
from pipeline.said.which_change import (
    cant_be_told,
    changes_of,
    own_names,
    tells_a_change,
)
from pipeline.said.word_lists import pattern

_USED_TO = re.compile(
    r"\bused to\b.*\b(?:now|nowadays|these days|today)\b|\b(?:now|nowadays"
    r"|these days|today)\b.*\bused to\b"
)
PLAIN = "not a statistic"
_FROM_TO = re.compile(r"\bfrom\b.*\bto\b")
SHORT = 2  # tokens of a clause that only says which way
_OPEN = re.compile(r"\b(?:somewhere|anywhere|anything) (?:between|from)\b")


def stated(
    text: str,
    following: str,
    heard: Sounded,
    carried: Mapping[str, Set[str]],
    known: Known,
    numbers: Sequence[NumberChecked] = (),
    before: str = "",
) -> Iterator[tuple[int, int, Finding]]:
    """Where it is stated, in characters, and the finding that can't be told.

    `numbers` are those of the sentence as they were judged: they tell what a clause is of.
    """
    if (
        is_question(text)
        or _says_open(text, heard)
        or _says_open(following, known.heard(following, heard.signs))
    ):
        return
    tokens = heard.tokens
    if _announces(before, heard.signs, known):
        return
    if _OPEN.search(joined(tokens)) or _is_of_a_gap(heard, known):
        return
    if turn := turn_of(text, heard, known):
        yield turn
        return
    told = list(_by_clause(heard, text, carried, known, numbers))
    given = set[str]()
    for begins, ends, finding in [each for each in told if _is_whole(heard, each)] or told[:1]:
        if finding.id not in given:
            given.add(finding.id)
            yield tokens[begins].begins, tokens[ends - 1].ends, finding


def _is_whole(heard: Sounded, clause: tuple[int, int, Finding]) -> bool:
    """Whether a clause names what it is of, or how much: one that doesn't goes on with another."""
    begins, ends, _ = clause
    sized = any(begins <= each.said.first < ends for each in heard.numbers)
    return sized or bool(set(own_names(heard, begins, ends)) - {WINDOW, EVENT, CONTROL, "region"})


def _by_clause(
    heard: Sounded,
    text: str,
    carried: Mapping[str, Set[str]],
    known: Known,
    numbers: Sequence[NumberChecked],
) -> Iterator[tuple[int, int, Finding]]:
    """Clauses, in tokens, that state what can't be told."""
    tokens = heard.tokens
    every, rates = names_in(heard.mentions, 0, len(tokens)), rates_of(text, known)
    for begins, ends, names in _telling(text, heard, known, numbers):
        found = rates or changes_of(heard, (begins, ends), carried, known, numbers)
        said = joined(tokens[begins:ends])
        if rates and _FROM_TO.search(said):
            continue  # with who bowled kept the same it is told by its two values alone
        if is_of_balls(said, found) or compares_others(names, every, said, found, known):
            continue
        if is_cautious(said) or is_of_others(text, last_name(heard, begins, ends)):
            continue
        if not rates and _is_of_another(heard, begins, numbers, known):
            continue
        if cant_be_told(found):
            yield begins, ends, found[0]


def _telling(
    text: str, heard: Sounded, known: Known, numbers: Sequence[NumberChecked]
) -> Iterator[tuple[int, int, dict[str, Set[str]]]]:
    """Clauses that say of what they name that it moved, stayed or differs; with the names."""
    of_other = of_balls = moved = False
    then_and_now = bool(_USED_TO.search(plain(text)))
    for begins, ends in clauses(heard.tokens, heard.numbers):
        said = joined(heard.tokens[begins:ends])
        named = [each for each in heard.mentions if begins <= each.begins < ends]
        short = ends - begins <= SHORT
        goes_on = (of_other and (short or not named)) or (of_balls and short)
        of_balls = tells_balls(said)
        if goes_on or ends == begins:
            continue  # 'the trend was one per cent a season, upwards'
        of_other = (
            is_of_other(said, then_and_now)
            or is_measured(heard, begins, ends)
            or any(each.cut == "season" for each in named)
        )
        names = names_of(heard, begins, ends)
        of_other = of_other or counts_only(said, names)
        told = says(heard, begins, ends, said, known) or ranks(said, names)
        place = heard.tokens[begins].begins, heard.tokens[ends - 1].ends
        told = told or (not moved and tells_a_change(*place, known, numbers))
        if not of_other and (told or (then_and_now and "used to" in said)):
            moved = True
            yield begins, ends, names


def _is_of_another(
    heard: Sounded, begins: int, numbers: Sequence[NumberChecked], known: Known
) -> bool:
    """Whether the numbers of a clause, with its asides, are of what can be told, or of nothing."""
    first, last = with_asides(heard, begins)
    here = [each for each in numbers if first <= each.begins < last and each.result != PLAIN]
    lacking = any(
        first <= heard.tokens[each.begins].begins < last
        and each.cut == "measure"
        and all(value.startswith("~") for value in each.values)
        for each in heard.mentions
    )
    return bool(here) and all(
        (lacking and each.result == "unsupported") or _is_told(each, known) for each in here
    )


def _is_told(number: NumberChecked, known: Known) -> bool:
    """Whether it is of a finding that can be told; a side of a gap has no verdict of its own."""
    finding = known.found_by.get(number.fact or "")
    return finding is not None and not isinstance(finding, Gap) and finding.verdict != "can't tell"


def _says_open(text: str, heard: Sounded) -> bool:
    """Whether a sentence says that what it names, or what was said before it, can't be told."""

    def named(begins: int, ends: int) -> bool:
        return any(begins <= heard.tokens[each.begins].begins < ends for each in heard.mentions)

    return holds_back(text, named)


def _announces(before: str, signs: bool, known: Known) -> bool:
    """Whether the sentence before is a caution of what follows: 'Nothing here is certain.'"""
    heard = known.heard(before, signs)
    points_back = pattern(r"^(?:<contrasts> )?<points_back>\b", "doubts").match(plain(before))
    return not heard.mentions and not points_back and _says_open(before, heard)


def _is_of_a_gap(heard: Sounded, known: Known) -> bool:
    """Whether both groups of a gap are told of: their changes are what it is of."""
    return bool(gaps_of(names_in(heard.mentions, 0, len(heard.tokens)), known))
