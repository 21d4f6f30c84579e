"""The clauses of a sentence, and what each is of: by its own names, else by those before it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set

from pipeline.said.meant import names_in
from pipeline.said.number_heard import Heard
from pipeline.said.sounded import Sounded
from pipeline.said.targets import OVERS, WINDOW
from pipeline.said.tokens import BREAKS, Token

_WHICH = {"which", "who", "whose"}
_TELLS_ON = {"and", "while", "whereas", "but", "though", "although", "yet"}


def clauses(tokens: Sequence[Token], numbers: Sequence[Heard] = ()) -> Iterator[tuple[int, int]]:
    """Stretches of tokens between commas, full stops and words that set one against another.

    The 'and' of 'one and a half' ends none.
    """
    inside = {at for each in numbers for at in range(each.said.first, each.said.last)}
    first = 0
    for at, token in enumerate(tokens):
        if at not in inside and (token.text in BREAKS or token.text in _TELLS_ON):
            yield first, at
            first = at + 1
    yield first, len(tokens)


def with_asides(heard: Sounded, begins: int) -> tuple[int, int]:
    """Characters from one word or sign that sets clauses against each other to the next."""
    apart = [
        at
        for at, token in enumerate(heard.tokens)
        if token.text in _TELLS_ON or token.text in (BREAKS - {",", "(", ")"})
    ]
    inside = {at for each in heard.numbers for at in range(each.said.first, each.said.last)}
    apart = [at for at in apart if at not in inside]
    first = max((heard.tokens[at].ends for at in apart if at < begins), default=0)
    return first, min((heard.tokens[at].begins for at in apart if at >= begins), default=10**9)


def names_of(heard: Sounded, begins: int, ends: int) -> dict[str, Set[str]]:
    """Of the clause, with those before it in the sentence where it has none of a cut."""
    tokens = heard.tokens
    every = [each for each in heard.mentions if each.cut != "season"]
    own = names_in(every, begins, ends)
    before = [each for each in every if each.begins < begins and each.cut != WINDOW]
    if {"measure", OVERS} <= set(own):  # says all that it is of, but for its own asides
        apart, _ = with_asides(heard, begins)
        before = [each for each in before if tokens[each.begins].begins >= apart]
    if tokens[begins].text in _WHICH:
        before = before[::-1]  # is of what stands right before it
    for cut in {each.cut for each in before} - set(own):
        values = [each.values for each in before if each.cut == cut]
        own[cut] = frozenset().union(*values) if cut == "measure" else values[0]
    if not set(own) - {WINDOW, "overs"}:
        for each in every:
            if each.begins >= ends and each.cut not in own and each.cut != WINDOW:
                own[each.cut] = each.values
    return own


def last_name(heard: Sounded, begins: int, ends: int) -> int:
    """Where in a text the last name of a clause stands; the clause's beginning without one."""
    here = [each.begins for each in heard.mentions if begins <= each.begins < ends]
    return heard.tokens[max(here, default=begins)].begins
