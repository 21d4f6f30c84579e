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
from pipeline.said.may_begin import begins_anew, may_begin, spans
from pipeline.said.number_heard import Heard
from pipeline.said.sounded import Sounded
from pipeline.said.subjects import LATER, MEASURE
from pipeline.said.targets import NO_GROUPS
from pipeline.said.topic_known import Known

FINE = ("supported", "not a statistic")
WRONG = ("contradicted", "wrong direction", "wrong unit")
OPEN = ("unsupported", "for a person")
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
    return [
        each if each.result in FINE else talk.again(each, _is_settled(heard, known))
        for each, heard in zip(numbers, pieces[at].heard.numbers, strict=True)
    ]


def _is_settled(heard: Heard, known: Known) -> bool:
    """Whether no other sentence may contradict it: it is of another thing, or says no unit."""
    if not heard.own_unit:
        return True
    measured = heard.names.get(MEASURE)
    if measured and measured.level != LATER and measured.values.isdisjoint(known.measures):
        return True
    return heard.of_something or heard.other_head or heard.of_others


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
        self._whole = known.heard(self._text)
        ends = {each.ends for each in self._whole.mentions}
        self._after_names = {
            token.begins for at, token in enumerate(self._whole.tokens) if at in ends
        }
        self._breaks = self._one_between_names()
        self._read: dict[tuple[int, int, bool], Sequence[NumberChecked]] = {}

    def again(self, number: NumberChecked, settled: bool) -> NumberChecked:
        """The number as it is where it is right; else where its very value is a fact's.

        Else it is for a person where several facts may be meant, or as it was. `alone` is what it
        is by the names of its own sentence, which may contradict it unless it is `settled`.
        """
        found, alone = [number], list[NumberChecked]()
        for begins, ends in self._sentences(number):
            found += self._at(number, begins, ends, alone=False)
            if found[-1].result == "supported":
                return _as(found[-1], number)
            alone += self._at(number, begins, ends, alone=True)
        said_otherwise = [each for each in (*found, *alone) if each.result == "wrong direction"]
        said_otherwise += [each for each in alone[:1] if each.result == "wrong unit"]
        if right := _first(alone, ("supported",)):
            return _as(right, number)
        if said_otherwise and not self._of_several(said_otherwise):
            return _as(said_otherwise[0], number)
        if self._of_several(found):
            return _unclear(number)
        wrong = None if settled or number.result not in OPEN else _first(alone, WRONG)
        return _as(wrong, number) if wrong else number

    def _at(
        self, number: NumberChecked, begins: int, ends: int, alone: bool
    ) -> Iterator[NumberChecked]:
        """The number in another sentence; `alone`: by what that names itself."""
        for each in self._numbers(begins, ends, alone):
            if each.begins + begins == number.begins + self._own:
                yield each

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

    def _numbers(self, begins: int, ends: int, alone: bool) -> Sequence[NumberChecked]:
        key = begins, ends, alone
        if key not in self._read:
            text = self._text[begins:ends]
            heard = self._known.heard(text, False)
            named = {each.cut for each in heard.mentions} - NO_GROUPS
            if alone and (not named or begins in self._after_names):
                return ()
            carried = Carried(self._known) if alone else self._carried(begins)
            self._read[key] = numbers_in(heard, text, carried, self._known)
        return self._read[key]

    def _carried(self, begins: int) -> Carried:
        """What is in mind where the sentence begins inside a piece: its first words too."""
        at = bisect_left(self._starts, begins + 1) - 1
        carried, before = copy(self._pieces[at].carried), self._text[self._starts[at] : begins]
        if before.strip():
            carried.take(self._known.heard(before))
        return carried

    def _one_between_names(self) -> list[int]:
        """Of the breaks between two names or numbers the likeliest: most others part the same.

        So does the last one before a word like 'it': what is before that has its own verb.
        """
        whole = self._whole
        places = {token.begins: at for at, token in enumerate(whole.tokens)}
        named = sorted(whole.tokens[begins].begins for begins, _ in spans(whole))
        found: dict[int, int] = {0: 0}
        last: dict[int, int] = {}
        for start, piece in zip(self._starts, self._pieces, strict=False):
            for each in (start + at for at in piece.breaks or ()):
                if each in places and may_begin(whole, places[each]):
                    gap = bisect_left(named, each)
                    found.setdefault(gap, each)
                    if begins_anew(whole, places[each]):
                        last[gap] = max(each, last.get(gap, 0))
        return sorted({*found.values(), *last.values()})


def _first(found: Sequence[NumberChecked], results: Sequence[str]) -> NumberChecked | None:
    return next((each for each in found if each.result in results), None)


def _as(found: NumberChecked, number: NumberChecked) -> NumberChecked:
    """What was found of a number in another sentence, where the number stands."""
    return structs.replace(found, said=number.said, begins=number.begins, ends=number.ends)


def _unclear(number: NumberChecked) -> NumberChecked:
    if number.result not in WRONG:
        return number
    why = f"Where its sentence begins and ends can’t be told, nor so what “{number.said}” is of."
    return structs.replace(number, result="for a person", corrected=None, why=why, risk=2)
