"""Whether a sentence may begin at a word, where no sign says so."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.said.common_words import VERBS
from pipeline.said.number_heard import HEDGES
from pipeline.said.sounded import Sounded
from pipeline.said.targets import EVENT, WINDOW
from pipeline.said.up_or_down import way_of_word

# What leads up to a number, and begins no sentence but with it.
_LEADS = {hedge.split()[0] for hedge in HEDGES} | {"anywhere", "somewhere", "between", "overall"}

_BETWEEN = 7  # words between two numbers that are set one against the other
_IN = {"in", "on", "at", "by", "for", "off", "against"}
_WHERE = {"home", "away", "then", "now", "against"}
_WHEN = {"before", "after", "afterwards"}
_NOUN_BEGINS = {"the", "that", "this", "it", "we", "you", "they", "a", "an"}
_SINCE = {"before", "after", "since", "until"}
_DOERS = {
    "i",
    "you",
    "we",
    "they",
    "he",
    "she",
    "it",
    "there's",
    "that's",
    "it's",
    "i'm",
    "they're",
}
_DOERS |= {
    f"{each}'{end}" for each in ("i", "you", "we", "they", "he", "she") for end in ("d", "ve")
}
_TELL_OF = {"than", "as", "what", "which", "that", "when", "where", "if", "who", "how", "while"}
_TELL_OF |= {"like", "of", "for", "to", "with", "from", "by", "on", "in", "at", "against"}
_TO_NOUNS = {"on", "off", "against"}


def may_begin(heard: Sounded, at: int) -> bool:
    """Not inside a name or a number, not at a number, and not at what is said of one beside it.

    'rose | by', 'cost | nearly four', 'four and a half | before', 'four | on the coast'.
    """
    if any(begins < at < ends for begins, ends in spans(heard)):
        return False
    if any(each.said.first == at for each in heard.numbers):
        return False
    word, following = _text(heard, at), _text(heard, at + 1)
    if way_of_word(heard.tokens, at) or word in _LEADS or _leads_to_name(heard, at):
        return False
    if word in _WHEN and following not in _NOUN_BEGINS:
        return False  # 'for a wicket | before and forty-five after'
    if _sets_one_against_another(heard, at):
        return False
    return not (any(each.ends == at for each in heard.numbers) and _is_of_it(heard, at))


def begins_anew(heard: Sounded, at: int) -> bool:
    """Whether a word is somebody who does something, and none of whom a clause before tells."""
    return _text(heard, at) in _DOERS and _text(heard, at - 1) not in _TELL_OF


def _sets_one_against_another(heard: Sounded, at: int) -> bool:
    """'4.6 at home | and 4.9 away': nothing between two numbers is done."""
    ends = max((each.ends for each in heard.numbers if each.ends <= at), default=None)
    begins = min((each.said.first for each in heard.numbers if each.said.first >= at), default=None)
    if ends is None or begins is None or begins - ends > _BETWEEN:
        return False
    between = range(ends, begins)
    return not any(_text(heard, i) in VERBS or way_of_word(heard.tokens, i) for i in between)


def _leads_to_name(heard: Sounded, at: int) -> bool:
    """'at | the death', 'before | the change'."""
    last = _text(heard, at - 1)
    event = any(each.cut == EVENT and each.begins in (at, at + 1) for each in heard.mentions)
    return last in _TO_NOUNS or (last in _SINCE and event)


def _is_of_it(heard: Sounded, at: int) -> bool:
    """Whether what follows a number says where it was, or when: 'before', 'now', 'at home'."""
    here = [each for each in heard.mentions if each.begins == at]
    word = _text(heard, at)
    if word in _WHERE or any(each.cut == WINDOW and each.ends == at + 1 for each in here):
        return True
    named = at + 1 + (_text(heard, at + 1) == "the")
    return word in _IN and any(each.begins in (at, at + 1, named) for each in heard.mentions)


def spans(heard: Sounded) -> Iterator[tuple[int, int]]:
    """The tokens of every name and number."""
    yield from ((each.begins, each.ends) for each in (*heard.mentions, *heard.parts))
    yield from ((each.said.first, each.ends) for each in heard.numbers)


def _text(heard: Sounded, at: int) -> str:
    return heard.tokens[at].text if 0 <= at < len(heard.tokens) else ""
