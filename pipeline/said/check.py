"""A script or captions, sentence by sentence: every number and claim held against the facts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from pipeline.contracts.script_check import ClaimChecked, NumberChecked, SentenceChecked
from pipeline.said.carry import Carried, goes_on
from pipeline.said.claims import claims_of
from pipeline.said.corrected import begins_anew
from pipeline.said.judgement import Judged, ends_apart
from pipeline.said.match import all_judged, judged
from pipeline.said.number_heard import Heard
from pipeline.said.sounded import Sounded
from pipeline.said.targets import EVENT, WINDOW
from pipeline.said.topic_known import Known
from pipeline.said.turned import turned
from pipeline.said.why import fact_now, right_form, risk_of, why

_LINKS = {"that's", "that", "this", "which"}

__all__ = ["Known", "Sentence", "checked"]


STOPPED = "Too many numbers for one file; from here on nothing was judged"
FEW = 20  # characters


class Sentence(NamedTuple):
    """A sentence with the line that it begins at, or its time in milliseconds.

    `heading` is that of its part, where it has one; `begins` says that it comes first after a
    blank line.
    """

    text: str
    line: int | None = None
    start: int | None = None
    heading: str = ""
    begins: bool = False


def checked(
    sentences: Iterable[Sentence], known: Known, most: int | None = None
) -> list[SentenceChecked]:
    """Each sentence with its numbers and claims; what one names, the next may leave out.

    Once `most` numbers are judged the next sentence says so, and nothing of the others is.
    """
    told = list(sentences)
    carried = Carried(known)
    found: list[SentenceChecked] = []
    count = 0
    for at, sentence in enumerate(told):
        if most is not None and count >= most:
            stopped = _sentence(sentence, [_stopped(sentence.text)], [])
            return [*found, stopped, *map(unjudged, told[at + 1 :])]
        following = told[at + 1].text if at + 1 < len(told) else ""
        carried.begin(sentence.heading, sentence.begins)
        names = carried.names()
        heard = known.heard(sentence.text)
        numbers = _numbers(heard, sentence.text, carried, known)
        count += len(numbers)
        if begins_anew(following):
            numbers = _without_last(numbers)
        claims = claims_of(sentence.text, following, heard, names, known)
        found.append(_sentence(sentence, numbers, claims))
        carried.take(heard, any(each.result == "supported" for each in numbers))
    return found


def unjudged(sentence: Sentence) -> SentenceChecked:
    """A sentence as it stands, after the most numbers that are judged."""
    return _sentence(sentence, [], [])


def is_stopped(found: Iterable[SentenceChecked]) -> bool:
    """Whether judging ended before the last of the sentences."""
    return any(one.why.startswith(STOPPED) for each in found for one in each.numbers)


def _stopped(text: str) -> NumberChecked:
    """What is said where judging ends, of the first words that are not judged."""
    ends = text.find(" ", FEW)
    ends = len(text) if ends < 0 else ends
    why = f"{STOPPED}: cut the file in two."
    return NumberChecked(
        said=text[:ends], begins=0, ends=ends, result="for a person", why=why, risk=1
    )


def _without_last(numbers: list[NumberChecked]) -> list[NumberChecked]:
    """The next sentence takes its last number back: 'twelve points. Sorry, twelve per cent.'"""
    gone = [
        NumberChecked(said=each.said, begins=each.begins, ends=each.ends, result="not a statistic")
        for each in numbers[-1:]
    ]
    return [*numbers[:-1], *gone]


def _sentence(
    sentence: Sentence, numbers: Sequence[NumberChecked], claims: Sequence[ClaimChecked]
) -> SentenceChecked:
    return SentenceChecked(
        text=sentence.text,
        line=sentence.line,
        start=sentence.start,
        numbers=list(numbers),
        claims=list(claims),
    )


def _numbers(whole: Sounded, text: str, carried: Carried, known: Known) -> list[NumberChecked]:
    """Every number of a sentence; of a range each end is held against the other too."""
    linked = goes_on(whole) or any(each.text in _LINKS for each in whole.tokens[:1])
    told = [replace(_with_parts(each, carried), goes_on=linked) for each in whole.numbers]
    found = ends_apart(told, all_judged(told, carried.names(), known))
    for other in known.also:
        found = [
            _cited(heard, mine, text, other) if mine.result == "unsupported" else mine
            for heard, mine in zip(told, found, strict=True)
        ]
    return [_number(*each, whole, text, known) for each in zip(told, found, strict=True)]


def _cited(heard: Heard, mine: Judged, text: str, other: Known) -> Judged:
    """A number that no fact of the topic carries, as a fact that it cites of another."""
    for each in other.heard(text).numbers:
        if each.said.first == heard.said.first:
            theirs = judged(each, {}, other)
            return theirs if theirs.result == "supported" else mine
    return mine


def _with_parts(heard: Heard, carried: Carried) -> Heard:
    """A sentence that names nothing is of the part that the one before it was of."""
    if set(heard.names) - {WINDOW, EVENT}:
        return heard
    return replace(heard, all_parts=heard.all_parts | carried.parts())


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
