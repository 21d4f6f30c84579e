"""Numbers of captions without signs, read again with their sentence begun and ended elsewhere.

Such captions are cut at pauses, and people pause anywhere: what a number is of may stand in the
piece before, or what another is of in its own. What is right of no sentence that may be meant is
wrong; what would be wrong of one thing here and of another there is for a person.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from copy import copy
from typing import NamedTuple

from msgspec import structs

from pipeline.contracts.script_check import NumberChecked
from pipeline.said.carry import Carried
from pipeline.said.in_sentence import numbers_in
from pipeline.said.may_begin import may_begin, spans
from pipeline.said.sounded import Sounded
from pipeline.said.topic_known import Known

FINE = ("supported", "not a statistic")
WRONG = ("contradicted", "wrong direction", "wrong unit")
BEGINS, ENDS = 8, 5  # places where a sentence may begin or end, the nearest of each
TRIED = 10  # sentences that are read for one number, the shortest first


class Piece(NamedTuple):
    """Words that were cut out of captions; `carried` is what was in mind before them.

    `breaks` are the characters where another sentence may begin, the likeliest first; none where
    signs tell it. 0 is one of them where the piece may go on with the one before.
    """

    text: str
    breaks: Sequence[int] | None
    heard: Sounded
    carried: Carried


def regrouped(
    pieces: Sequence[Piece], numbers: Sequence[Sequence[NumberChecked]], known: Known
) -> list[Sequence[NumberChecked]]:
    """The numbers of each piece, as they are in the likeliest sentence that they are right in."""
    return [_again(pieces, at, mine, known) for at, mine in enumerate(numbers)]


def _again(
    pieces: Sequence[Piece], at: int, numbers: Sequence[NumberChecked], known: Known
) -> Sequence[NumberChecked]:
    if pieces[at].breaks is None or all(each.result in FINE for each in numbers):
        return numbers
    first, last = max(0, at - 1), min(at + 1, len(pieces) - 1)
    first = first if _joins(pieces[at]) else at
    last = last if _joins(pieces[last]) else at
    talk = _Talk(pieces[first : last + 1], at - first, known)
    return [each if each.result in FINE else talk.again(each) for each in numbers]


def _joins(piece: Piece) -> bool:
    return piece.breaks is not None and 0 in piece.breaks


class _Talk:
    """A piece with those beside it, and the sentences that may be in them."""

    def __init__(self, pieces: Sequence[Piece], own: int, known: Known) -> None:
        self._pieces, self._known = pieces, known
        self._text = " ".join(piece.text for piece in pieces)
        self._starts = [0]
        for piece in pieces:
            self._starts.append(self._starts[-1] + len(piece.text) + 1)
        self._own = self._starts[own]
        self._breaks = self._one_between_names()
        self._read: dict[tuple[int, int], Sequence[NumberChecked]] = {}

    def again(self, number: NumberChecked) -> NumberChecked:
        """The number as it is where it is right; else as it was, or for a person."""
        found = [number]
        for begins, ends in self._sentences(number):
            for each in self._numbers(begins, ends):
                if each.begins + begins != number.begins + self._own:
                    continue
                if each.result == "supported":
                    return structs.replace(
                        each, said=number.said, begins=number.begins, ends=number.ends
                    )
                found.append(each)
        return _unclear(number) if self._of_several(found) else number

    def _of_several(self, found: Sequence[NumberChecked]) -> bool:
        """Whether it is wrong of one finding in one sentence, of another in another."""
        facts = [self._known.now.get(each.fact or "") for each in found if each.result in WRONG]
        return len({fact.finding for fact in facts if fact}) > 1

    def _sentences(self, number: NumberChecked) -> Iterator[tuple[int, int]]:
        """(first character, one after the last), those nearest to its own begin and end first."""
        first, last = number.begins + self._own, number.ends + self._own
        begins = [at for at in self._breaks if at <= first][-BEGINS:][::-1]
        ends = [at - 1 for at in self._breaks if at > last][:ENDS]
        ends = ends if len(ends) == ENDS else [*ends, len(self._text)]
        both = [(i + j, b, e) for i, b in enumerate(begins) for j, e in enumerate(ends)]
        yield from ((b, e) for _, b, e in sorted(both)[:TRIED])

    def _numbers(self, begins: int, ends: int) -> Sequence[NumberChecked]:
        if (begins, ends) not in self._read:
            text = self._text[begins:ends]
            heard = self._known.heard(text)
            self._read[begins, ends] = numbers_in(heard, text, self._carried(begins), self._known)
        return self._read[begins, ends]

    def _carried(self, begins: int) -> Carried:
        """What is in mind where the sentence begins inside a piece: its first words too."""
        at = bisect_left(self._starts, begins + 1) - 1
        carried, before = copy(self._pieces[at].carried), self._text[self._starts[at] : begins]
        if before.strip():
            carried.take(self._known.heard(before))
        return carried

    def _one_between_names(self) -> list[int]:
        """Of the breaks between two names or numbers the likeliest: others part the same."""
        whole = self._known.heard(self._text)
        places = {token.begins: at for at, token in enumerate(whole.tokens)}
        named = sorted(whole.tokens[begins].begins for begins, _ in spans(whole))
        found: dict[int, int] = {0: 0}
        for start, piece in zip(self._starts, self._pieces, strict=False):
            for each in (start + at for at in piece.breaks or ()):
                if each in places and may_begin(whole, places[each]):
                    found.setdefault(bisect_left(named, each), each)
        return sorted(found.values())


def _unclear(number: NumberChecked) -> NumberChecked:
    if number.result not in WRONG:
        return number
    why = f"Where its sentence begins and ends can’t be told, nor so what “{number.said}” is of."
    return structs.replace(number, result="for a person", corrected=None, why=why, risk=2)
