"""Claims that the event made a change: 'because of the new rule', 'the new rule cut the runs'."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from pipeline.said.cause_held import is_denied, is_open, is_others_view
from pipeline.said.cause_parts import ABOUT, Rule
from pipeline.said.cause_patterns import RULES
from pipeline.said.cause_places import is_a_price, is_of_itself, is_when, is_where
from pipeline.said.cause_turns import MORE_RULES
from pipeline.said.caused import (
    changes_there,
    effects_of,
    has_change,
    has_effect,
    is_dated,
    is_of_the_topic,
)
from pipeline.said.cautious import is_doubted, is_held_back, is_question, plain, surely
from pipeline.said.reasons import answers, is_of_the_telling, reasons
from pipeline.said.word_lists import any_of, expression, filled, pattern, words

if TYPE_CHECKING:
    from pipeline.said.sounded import Sounded

_NEAR = 50  # characters in which what is blamed is named
_IT_DOES = r"(?:well,? )?(?:it|they|that)(?:'s)?(?: <adverbs>)* <finite_verbs>\b(?! <not_done>\b)"
_NAMES = re.compile(r"(?<=[\w,] )[A-Z]\w+(?: [A-Z]\w+)*")  # a capital inside a sentence

_DATED = re.compile(
    r"\b(?:since|when|after|before|until|once) (?:(?:the|those|our|that|all) )?(?:\w+ )?$"
)

_COSTS = re.compile(r"\bhas cost$|\b(?:come|lost)$")  # what somebody did, and not what it did


class Span(NamedTuple):
    """Characters of a sentence."""

    begins: int
    ends: int


class Causes:
    """Patterns of one topic: `event` is what a claim would name, with what else its title names."""

    def __init__(self, events: Iterable[str], title: str, known: Iterable[str]) -> None:
        self._own = {"event": _events(events, title, set(known))}
        self._own["thing"] = filled(ABOUT, "causes", self._own)
        self._event = re.compile(rf"\b{self._own['event']}s?\b")
        self._compiled: dict[Rule, re.Pattern[str]] = {}

    def _rules(self, told: str) -> Iterator[tuple[Rule, re.Pattern[str]]]:
        """Those that a sentence may hold to; what names no event needs no rule of one."""
        named = self._event.search(told) is not None
        for rule in (*RULES, *MORE_RULES):
            if named or not rule.names_event:
                if rule not in self._compiled:
                    template = filled(rule.template, "causes", self._own)
                    self._compiled[rule] = re.compile(template)
                yield rule, self._compiled[rule]

    def found(self, text: str, heard: Sounded, before: str = "") -> Span | None:
        """The first claim of a cause that is stated, and not asked, denied or doubted.

        `before` is the sentence before it: a question that it may answer.
        """
        told = surely(plain(text))
        if is_dated(told):
            return None
        asked = plain(before) if is_question(before) else ""
        if is_question(text):
            return None
        if asked and (answer := self._answer(told, heard, asked)):
            return answer
        for begins, ends in self._claims(told, heard):
            if not is_open(told, begins, ends) and not is_held_back(text, begins):
                return Span(begins, ends)
        return None

    def is_event(self, word: str) -> bool:
        """Whether a word is the event's own: what it does is no change of a number."""
        return bool(self._event.fullmatch(word))

    def _claims(self, told: str, heard: Sounded) -> Iterator[tuple[int, int]]:
        for rule, compiled in self._rules(told):
            for match in compiled.finditer(told):
                denied = not rule.denies and is_denied(match[0])
                if denied or (rule.needs == "effect" and self._only_dates(told, match)):
                    continue
                if self._says_what(told, heard, match, rule):
                    yield match.span()
        yield from (match.span() for match in reasons(told, heard))
        for match in effects_of(told):
            yield match.span()

    def _only_dates(self, told: str, match: re.Match[str]) -> bool:
        """'Since it came in spin has cost less': when it was, and not why."""
        named = self._event.search(match[0])
        led = told[: match.start() + named.start()] if named else ""
        return bool(_DATED.search(led)) and bool(_COSTS.search(match[0]))

    def _answer(self, told: str, heard: Sounded, asked: str) -> Span | None:
        """'What made it dearer? The new rule.' and 'Did it make a difference? It did.'"""
        named = self._event.search(told)
        made = any(True for _ in self._claims(asked, heard)) or any(
            compiled.search(asked) for rule, compiled in self._rules(asked) if rule.needs != "by"
        )
        does = pattern(_IT_DOES, "causes").match(told) if self._event.search(asked) else None
        goes_on = (
            does and not is_others_view(told, does.end()) and has_effect(told, heard, 0, does.end())
        )
        if (goes_on or answers(asked, told, named is not None, made)) and not is_doubted(told, 0):
            return Span(0, len(told.rstrip(" .!")))
        return None

    def _says_what(self, told: str, heard: Sounded, match: re.Match[str], rule: Rule) -> bool:
        """Whether what made it is the event, and something is made by it."""
        begins, ends = match.span()
        match rule.needs:
            case "by":
                return self._is_blamed(told, heard, begins, ends)
            case "moved":
                of_that = re.match(r" (?:this|that|it|all this|all that)\b", told[ends:])
                return bool(of_that) or changes_there(told, heard, 0, len(told))
            case "made":
                return not is_of_the_telling(told) and changes_there(told, heard, 0, len(told))
            case "topic":
                if is_where(told, heard, match) or is_of_the_telling(told):
                    return False
                return has_effect(told, heard, begins, begins)
            case "effect":
                of_itself = is_of_itself(told, match) or is_a_price(told, heard, match)
                if of_itself or is_where(told, heard, match) or is_when(told, heard, match):
                    return False
                return has_effect(told, heard, begins, ends)
            case "no group":
                return not is_of_the_topic(heard, begins, ends, lacking=False)
            case _:
                return True

    def _is_blamed(self, told: str, heard: Sounded, begins: int, ends: int) -> bool:
        """Of 'because of' and the like: whether what follows is the event, or else a change is."""
        blamed = re.split(r"[,.;:]", told[ends : ends + _NEAR])[0]
        natural = pattern(r"\b<forces>\b", "causes").search(blamed)
        again = re.match(r" (?:it|this|that|them)\b", blamed) and self._event.search(told[:begins])
        if not self._event.search(blamed) and not natural and not again:
            thanked = re.match(r" \w+ for\b", told[ends:])
            telling = pattern(r"\b<of_the_telling>\b", "causes").search(blamed)
            return not thanked and not telling and has_change(heard, begins, ends)
        ends += len(blamed)
        alone = not told[:begins].strip() + told[ends:].strip(" .!")
        return alone or has_effect(told, heard, begins, ends)


def _events(events: Iterable[str], title: str, known: set[str]) -> str:
    """What happened, by its names and by the words of the title that are nothing else's."""
    named = {re.sub(r"^(?:the|a|an) ", "", plain(event)) for event in events if event}
    no_event = {*words("causes.no_event"), *words("causes.verbs"), *known}
    no_event |= {*words("causes.grows")}
    told = re.findall(r"[a-z]{3,}", plain(_NAMES.sub(" ", title)))
    found = {word for name in named for word in name.split() if word not in words("causes.leads")}
    found |= {word.removesuffix("s") for word in told if word not in no_event}
    others = map(expression, words("causes.event_words")) if named else ()
    return any_of([*map(re.escape, {*named, *found}), *others])
