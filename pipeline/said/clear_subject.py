"""Whether a sentence says what its number is of, in words that nothing of the topic has."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.said.number_table import LARGE, PARTS, SMALL, TIMES
from pipeline.said.tokens import Token
from pipeline.said.up_or_down import way_of_word

SHORT = 3  # letters: a word of no more says nothing by itself
_LIGHT_WORDS = """
about again almost already altogether around back been before after being between both came come
comes could does done down each even every exactly figure figures from give given gives goes gone
going half have having here it's just keep kind know less like little look looking looks made make
makes maybe mean means more most much nearly number numbers often only over overall perhaps point
possibly quite rather really right roughly said same says since some something still stood stands
sure take taken takes talking tell than that that's their them then there there's these they they're
thing think this those times today told total under upon very want we're well went were what what's
which while will with would year yes you'd your yours actually and per cent percent points runs
over overs balls then another ends ended end goes sits sitting puts comes close somewhere anyway
between around call called into isn't wasn't don't can't didn't we've you've they've got where when
"""
_LIGHT = {*_LIGHT_WORDS.split(), *SMALL, *LARGE, *PARTS, *TIMES}


def has_subject(tokens: Sequence[Token], spans: Sequence[tuple[int, int]]) -> bool:
    """`spans` are the numbers with their units."""
    inside = {at for begins, ends in spans for at in range(begins, ends)}
    return any(
        token.kind == "word"
        and len(token.text) > SHORT
        and at not in inside
        and token.text not in _LIGHT
        and not way_of_word(tokens, at)
        for at, token in enumerate(tokens)
    )
