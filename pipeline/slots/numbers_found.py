"""Which numbers of a line are facts, and in which form: where they stand, a slot can."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from pipeline.contracts.facts import Fact
from pipeline.slots.number_words import Span, number_spans
from pipeline.text import capitalised
from pipeline.voice.heard import heard_as
from pipeline.wording import phrases
from pipeline.wording.fact_forms import forms_of, in_form, way_of

# Forms that lines use; a line's other numbers may read like the rest by chance (a margin of five
# per cent like a change of five), so these stay for those who write by hand.
SAID = ("said", "size", "range", "apart", "extent", "between", "fraction")
OF_VALUES = ("rounded", "number")
# What may follow a number whose unit is not said again: "from four an over to three in a spell".
_GOES_ON = re.compile(
    r"$|[.,;:!?)”—–]|\s+(?:now|then|before|after|at|in|for|over|by|to|against|and|with"
    r"|on|where|when|while|from|since|until|than|but)\b"
)
_JOINED = re.compile(r"[\w’'-]$")
_JOINS = re.compile(r"[\w-]|[’']\w")
FRACTIONS = set(phrases.FRACTIONS.values())  # 'half' may be half of another thing
_NAMES = ("step", "drift", "control")  # parts of a finding that a sentence names


class Found(NamedTuple):
    """A number of a line: where it stands, the fact, the form that reads so."""

    span: Span
    fact: str
    form: str


class _Reading(NamedTuple):
    """A fact in a form; `bare` without its unit."""

    text: str
    fact: Fact
    form: str
    bare: bool


def found_in(text: str, facts: Sequence[Fact], trusted: Sequence[str] = ()) -> list[Found]:
    """The facts of a line, in the order in which it says them, none within another.

    The longest forms are looked for first; where several facts read alike, what the sentence names
    decides (the step, the drift), else the first that is not said yet: a's before b's. Numbers of
    `trusted` facts may stand before any noun: the line is known to say them.
    """
    whole = number_spans(text)
    found: list[Found] = []
    alike: dict[str, list[_Reading]] = {}
    for reading in _readings(facts, trusted):
        alike.setdefault(reading.text, []).append(reading)
    for form in sorted(alike, key=len, reverse=True):
        for span in _places(text, form, whole):
            if any(_overlap(span, other.span) for other in found):
                continue
            fitting = [one for one in alike[form] if not one.bare or _may_be_bare(text, span)]
            if fitting:
                chosen = _chosen(fitting, _sentence(text, span), {each.fact for each in found})
                found.append(Found(span, chosen.fact.id, _as_written(chosen, text, span)))
    return sorted(found)


def _readings(facts: Sequence[Fact], trusted: Sequence[str]) -> Iterator[_Reading]:
    for fact in facts:
        forms = forms_of(fact)
        for name in SAID if way_of(fact) else (*OF_VALUES, *SAID):
            if text := forms.get(name):
                bare = text == forms.get("number") or text in FRACTIONS
                yield _Reading(text, fact, name, bare and fact.id not in trusted)


def _places(text: str, form: str, whole: Sequence[Span]) -> Iterator[Span]:
    """Where a form is said, with or without a capital: whole words, and whole numbers."""
    for written in dict.fromkeys((form, capitalised(form))):
        begins = text.find(written)
        while begins >= 0:
            span = (begins, begins + len(written))
            if _is_whole(text, span) and all(
                _within(number, span) or not _overlap(number, span) for number in whole
            ):
                yield span
            begins = text.find(written, begins + 1)


def _is_whole(text: str, span: Span) -> bool:
    """Whether no word is cut at either end."""
    return not (_JOINED.search(text[: span[0]][-2:]) or _JOINS.match(text, span[1]))


def _may_be_bare(text: str, span: Span) -> bool:
    """Whether nothing that follows makes another thing of it: 'ten overs', 'five numbers'.

    'One' is said of too much that is no number.
    """
    follows = _GOES_ON.match(text, span[1])
    return follows is not None and text[slice(*span)].lower() != "one"


def _chosen(fitting: Sequence[_Reading], sentence: str, said: set[str]) -> _Reading:
    """Of facts that read alike the one that is meant, as far as that can be told."""
    return min(fitting, key=lambda each: (_unnamed(each.fact.id, sentence), each.fact.id in said))


def _unnamed(fact: str, sentence: str) -> bool:
    """Whether the sentence names a part of the finding that this is not, or not the part it is."""
    part = fact.rpartition(".")[2]
    named = [name for name in _NAMES if _names(sentence, name)]
    own = [name for name in _NAMES if name in part]
    return bool(set(own) - set(named)) or bool(named and not own)


def _names(sentence: str, part: str) -> bool:
    """By its word; a control is called what it is, so it is known by the voice's own forms."""
    if re.search(rf"\b{part}", sentence, re.IGNORECASE):
        return True
    return part == "control" and bool(heard_as(f"{sentence.strip()}.", ("control.",)))


def _sentence(text: str, span: Span) -> str:
    begins = max(text.rfind(f"{stop} ", 0, span[0]) for stop in ".!?") + 1
    ends = re.compile(r"[.!?](?:\s|$)").search(text, span[1])
    return text[begins : ends.start() if ends else len(text)]


def _as_written(reading: _Reading, text: str, span: Span) -> str:
    """The form's name, with a capital where the words have one that the form has not."""
    if in_form(reading.fact, reading.form) == text[slice(*span)]:
        return reading.form
    return capitalised(reading.form)


def _overlap(one: Span, other: Span) -> bool:
    return one[0] < other[1] and other[0] < one[1]


def _within(inner: Span, outer: Span) -> bool:
    return outer[0] <= inner[0] and inner[1] <= outer[1]
