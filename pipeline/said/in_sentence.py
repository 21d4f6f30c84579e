"""The numbers of one sentence: each judged, with what is said of it to a presenter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace

from pipeline.contracts.script_check import NumberChecked
from pipeline.said.carry import Carried, goes_on
from pipeline.said.judgement import Judged, ends_apart
from pipeline.said.match import judged
from pipeline.said.number_heard import Heard
from pipeline.said.sounded import Sounded
from pipeline.said.targets import EVENT, WINDOW
from pipeline.said.topic_known import KEPT, Known
from pipeline.said.turned import turned
from pipeline.said.whole_sentence import all_judged
from pipeline.said.why import fact_now, right_form, risk_of, why

_LINKS = {"that's", "that", "this", "which"}


def numbers_in(
    whole: Sounded, text: str, carried: Carried, known: Known, asked: bool = False
) -> Sequence[NumberChecked]:
    """Every number of a sentence; of a range each end is held against the other too.

    `asked`: the sentence before asks, and this one is its answer. The same sentence after the
    same names is known again.
    """
    names, parts = carried.names(), carried.parts()
    named = frozenset((cut, frozenset(told)) for cut, told in names.items())
    key = (text, named, parts, asked, whole.signs)
    if key not in known.judged:
        if len(known.judged) >= KEPT:
            known.judged.clear()
        known.judged[key] = _judged(whole, text, names, parts, known, asked)
    return known.judged[key]


def _judged(
    whole: Sounded,
    text: str,
    names: Mapping[str, Set[str]],
    parts: frozenset[str],
    known: Known,
    asked: bool,
) -> tuple[NumberChecked, ...]:
    linked = asked or goes_on(whole) or any(each.text in _LINKS for each in whole.tokens[:1])
    told = [replace(_with_parts(each, parts), goes_on=linked) for each in whole.numbers]
    found = ends_apart(told, all_judged(told, names, known))
    for other in known.also:
        found = [
            _cited(heard, mine, text, other) if mine.result == "unsupported" else mine
            for heard, mine in zip(told, found, strict=True)
        ]
    return tuple(_number(*each, whole, text, known) for each in zip(told, found, strict=True))


def _cited(heard: Heard, mine: Judged, text: str, other: Known) -> Judged:
    """A number that no fact of the topic carries, as a fact that it cites of another."""
    for each in other.heard(text).numbers:
        if each.said.first == heard.said.first:
            theirs = judged(each, {}, other)
            return theirs if theirs.result == "supported" else mine
    return mine


def _with_parts(heard: Heard, parts: frozenset[str]) -> Heard:
    """A sentence that names nothing is of the part that the one before it was of."""
    if set(heard.names) - {WINDOW, EVENT}:
        return heard
    return replace(heard, all_parts=heard.all_parts | parts)


def _number(heard: Heard, found: Judged, whole: Sounded, text: str, known: Known) -> NumberChecked:
    begins = whole.tokens[heard.said.first].begins
    ends = whole.tokens[max(heard.ends, heard.said.last) - 1].ends
    fact = found.target.fact if found.target else None
    now = fact_now(found, known)
    said = text[begins:ends]
    return NumberChecked(
        said=said,
        begins=begins,
        ends=ends,
        result=found.result,
        fact=fact.id if fact else None,
        verdict=now.verdict if now else None,
        right=right_form(found, known),
        edition=found.target.edition if found.target and found.result == "stale" else None,
        corrected=turned(found, heard, said, known),
        why=why(found, said, known),
        risk=risk_of(found),
    )
