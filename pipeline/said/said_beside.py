"""What stands beside a number: whose it may be, when it was, what it is set against."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.said.common_words import WHOSE
from pipeline.said.mentions_said import ANY_RATE
from pipeline.said.number_heard import Heard
from pipeline.said.pieces import Place
from pipeline.said.subjects import MEASURE
from pipeline.said.targets import NO_GROUPS, WINDOW
from pipeline.said.terms import Mention
from pipeline.said.tokens import Token

_THAN = {"than", "against", "undercuts", "undercut", "beats"}
_DATES = {"now", "still", "later", "then", "today", "earlier", "afterwards", "since", "year"}
_MONEY = ("£", "$", "€")
_LED = 3  # tokens before a clause that lead to it: 'for them, it is'
_SET_AGAINST = (
    ["against"], ["instead", "of"], ["rather", "than"], ["versus"], ["v"], ["to"],
    ["compared", "with"], ["as", "against"], ["plays"], ["compared", "to"], ["set", "against"],
)  # fmt: skip


def _word_before(tokens: Sequence[Token], mention: Mention) -> str:
    return tokens[mention.begins - 1].text if mention.begins else ""


def is_dated(place: Place, mentions: Sequence[Mention]) -> bool:
    """'And now it is 4.5': between the numbers on either side of it."""
    first = place.numbers[place.at - 1].ends if place.at else 0
    near = range(max(first, place.piece[0]), min(place.next_begins, place.piece[1]))
    named = any(each.cut in (WINDOW, "season") and each.begins in near for each in mentions)
    return named or any(place.tokens[at].text in _DATES for at in near)


def without_groups(tokens: Sequence[Token], mentions: Sequence[Mention]) -> list[Token]:
    """Names of groups go nowhere: 'up country'."""
    groups = [each for each in mentions if each.cut not in NO_GROUPS]
    inside = {at for each in groups for at in range(each.begins, each.ends)}
    return [token._replace(text="_") if at in inside else token for at, token in enumerate(tokens)]


def rivals_of(tokens: Sequence[Token], mentions: Sequence[Mention]) -> frozenset[str]:
    """Where one of the two stands behind 'than' or the like: it is that one's number is lower."""
    groups = [each for each in mentions if each.cut not in NO_GROUPS]
    return frozenset(
        each.cut
        for each in groups
        if {token.text for token in tokens[max(0, each.begins - 2) : each.begins]} & _THAN
        and any(other.cut == each.cut and other.values != each.values for other in groups)
    )


def is_of_somebody(place: Place, mentions: Sequence[Mention]) -> bool:
    """'He was going for five and a half', where no group stands that may be meant."""
    measures = [each for each in mentions if each.cut == MEASURE and each.values != ANY_RATE]
    own = [each for each in measures if _word_before(place.tokens, each) not in WHOSE]
    named = bool(own) or any(each.cut not in NO_GROUPS for each in mentions)
    led = place.tokens[max(0, place.piece[0] - _LED) : place.number.said.first]
    return not named and any(token.text in WHOSE for token in led)


def of_money(text: str, tokens: Sequence[Token], each: Heard) -> Heard:
    """'It fell by £2': no fact is counted in money."""
    begins = tokens[each.said.first].begins
    return replace(each, money=True, plain=False) if text[:begins].endswith(_MONEY) else each


def is_set_against(tokens: Sequence[Token], one: Heard, two: Heard) -> bool:
    """Whether nothing but 'against' stands between two numbers."""
    if one.leads == "from":
        return False
    between = [token.text for token in tokens[one.ends : two.said.first] if token.text != ","]
    return between in _SET_AGAINST
