"""A script or captions, sentence by sentence: every number and claim held against the facts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy
from typing import NamedTuple

from msgspec import structs

from pipeline.contracts.script_check import ClaimChecked, NumberChecked, SentenceChecked
from pipeline.said.carry import Carried
from pipeline.said.claims import Told, claims_of
from pipeline.said.corrected import begins_anew
from pipeline.said.in_sentence import numbers_in
from pipeline.said.regrouped import Piece, regrouped
from pipeline.said.topic_known import Known

__all__ = ["Known", "Sentence", "checked"]


STOPPED = "Too many numbers for one file; from here on nothing was judged"
_QUOTES = "\"'”’) "
FEW = 20  # characters


class Sentence(NamedTuple):
    """A sentence with the line that it begins at, or its time in milliseconds.

    `heading` is that of its part, where it has one; `begins` says that it comes first after a
    blank line. `breaks` are where sentences may begin in captions without signs (`Piece`).
    """

    text: str
    line: int | None = None
    start: int | None = None
    heading: str = ""
    begins: bool = False
    breaks: Sequence[int] | None = None


def checked(
    sentences: Iterable[Sentence], known: Known, most: int | None = None
) -> list[SentenceChecked]:
    """Each sentence with its numbers and claims; what one names, the next may leave out.

    Once `most` numbers are judged the next sentence says so, and nothing of the others is.
    """
    told = list(sentences)
    carried = Carried(known)
    found: list[SentenceChecked] = []
    pieces: list[Piece] = []
    count = 0
    for at, sentence in enumerate(told):
        if most is not None and count >= most:
            stopped = _sentence(sentence, [_stopped(sentence.text)], [])
            after = [stopped, *map(unjudged, told[at + 1 :])]
            return [*_regrouped(pieces, found, known), *after]
        following = told[at + 1].text if at + 1 < len(told) else ""
        carried.begin(sentence.heading, sentence.begins)
        names = carried.names()
        heard = known.heard(sentence.text, sentence.breaks is None)
        asked = at > 0 and told[at - 1].text.rstrip(_QUOTES).endswith("?")
        pieces.append(Piece(sentence.text, sentence.breaks, heard, copy(carried)))
        numbers = numbers_in(heard, sentence.text, carried, known, asked)
        count += len(numbers)
        if begins_anew(following):
            numbers = _without_last(numbers)
        before = told[at - 1].text if at else ""
        whole = Told(sentence.text, before, following, heard, numbers)
        claims = claims_of(whole, names, known)
        found.append(_sentence(sentence, numbers, claims))
        carried.take(heard, any(each.result == "supported" for each in numbers))
    return _regrouped(pieces, found, known)


def _regrouped(
    pieces: Sequence[Piece], found: Sequence[SentenceChecked], known: Known
) -> list[SentenceChecked]:
    """Where no signs tell where sentences end, with the numbers that are right of another."""
    again = regrouped(pieces, [one.numbers for one in found], known)
    return [
        one if numbers is one.numbers else structs.replace(one, numbers=list(numbers))
        for one, numbers in zip(found, again, strict=True)
    ]


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


def _without_last(numbers: Sequence[NumberChecked]) -> list[NumberChecked]:
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
