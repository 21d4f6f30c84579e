"""The clause of a sentence in which each number stands."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from pipeline.said.terms import Mention
from pipeline.said.tokens import BREAKS, Token

if TYPE_CHECKING:
    from pipeline.said.number_heard import Heard
    from pipeline.said.pairs import Pair

Piece = tuple[int, int]  # from a token to the one after the last
_SETS_APART = {"and", "but", "while", "whereas", "though", "although", "against", "yet", "or"}
_SETS_APART |= {"then", "compared", "versus", "than", "where", "when"}
_AGAINST_WITHIN = 4  # tokens after 'against' in which a number is set against another


class Place(NamedTuple):
    """A number among those of its sentence, each with its clause."""

    at: int
    numbers: Sequence[Heard]
    pieces: Sequence[Piece]
    tokens: Sequence[Token]

    @property
    def number(self) -> Heard:
        return self.numbers[self.at]

    @property
    def piece(self) -> Piece:
        return self.pieces[self.at]

    @property
    def next_begins(self) -> int:
        """Where the next number does, or the sentence ends."""
        more = self.at + 1 < len(self.numbers)
        return self.numbers[self.at + 1].said.first if more else len(self.tokens)


def pieces_of(
    tokens: Sequence[Token], spans: Sequence[tuple[int, int]], pairs: Sequence[Pair | None]
) -> list[Piece]:
    """Of each number the clause that it stands in; both of a pair have the same one."""
    inside = {at for begins, ends in spans for at in range(begins, ends)}
    bound = set()
    for at, pair in enumerate(pairs):
        if pair and pair.at == 0 and at + 1 < len(spans):
            bound |= set(range(spans[at][1], spans[at + 1][0]))
    cuts = [
        at
        for at, token in enumerate(tokens)
        if (token.text in BREAKS or token.text in _SETS_APART)
        and at not in inside
        and at not in bound
        and (token.text != "against" or not inside.isdisjoint(range(at, at + _AGAINST_WITHIN)))
    ]
    found = []
    for begins, ends in spans:
        first = max((at for at in cuts if at < begins), default=-1) + 1
        last = min((at for at in cuts if at >= ends), default=len(tokens))
        found.append((first, last))
    return found


def is_in(mention: Mention, piece: Piece) -> bool:
    """Whether a name begins in a clause."""
    return piece[0] <= mention.begins < piece[1]
