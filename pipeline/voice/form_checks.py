"""What is wrong with a voice file: unknown outcomes, too few forms, slots, words too strong."""

from __future__ import annotations

import re
import string
from collections.abc import Iterator, Mapping
from typing import Any

from pipeline.config.yaml_files import Document
from pipeline.errors import Problem, did_you_mean
from pipeline.voice.agreement import disagreements
from pipeline.voice.as_written import plain_words, written
from pipeline.voice.strength import wrong_strength
from pipeline.voice.tellings import OUTCOMES, Outcome

MOST_WORDS = 25  # of a sentence, with its slots filled as they usually are
# Words that usually fill a slot; any other is two.
FILLED = {
    **{"what": 5, "reach": 8, "where": 3, "reason": 7, "felt": 4, "over": 3},
    **{"margin": 3, "first": 3, "size": 4, "expected": 5, "name": 3, "swings": 4, "it": 1},
    **{"rising": 1, "per": 1, "way": 1, "up": 1, "higher": 1, "rose": 1, "tested": 1, "did": 1},
    **{"one": 4, "other": 4, "ends": 5, "early": 4, "late": 4, "fewer": 6, "mean": 6, "each": 6},
    **{"are": 1, "have": 1, "stand": 1, "every": 1, "count": 1, "same": 1, "year": 2, "plain": 4},
    **{"times": 2, "alike": 3, "event": 3, "names": 4, "who": 3, "lean": 5, "ways": 4},
}


def problems_of(document: Document) -> list[Problem]:
    """Every mistake of a voice file with its line, in its order."""
    tree = document.tree
    if not isinstance(tree, Mapping):
        return [document.problem((), "give lists of sentences, each under what it tells")]
    wrong = [
        document.problem((name,), f"no outcome '{name}'{did_you_mean(name, OUTCOMES)}", key=True)
        for name in tree
        if name not in OUTCOMES
    ]
    wrong += [
        document.problem((), f"no forms of '{name}': give a list of {outcome.forms} or more")
        for name, outcome in OUTCOMES.items()
        if name not in tree
    ]
    for name, outcome in OUTCOMES.items():
        if name in tree:
            wrong += _of_outcome(document, name, outcome, tree[name])
    return [*wrong, *_twice(document, tree)]


def _of_outcome(document: Document, name: str, outcome: Outcome, forms: Any) -> Iterator[Problem]:
    if not isinstance(forms, list) or not all(isinstance(form, str) for form in forms):
        yield document.problem((name,), "give a list of sentences, each in quotation marks")
        return
    if len(forms) < outcome.forms:
        few = f"{len(forms)} forms: give {outcome.forms} or more, so that none comes too often"
        yield document.problem((name,), few, key=True)
    for at, form in enumerate(forms):
        told = written(form)
        if near := next((each for each in forms[:at] if _alike(written(each), told)), None):
            message = f"too like “{near}”: put it another way, or take one away"
            yield document.problem((name, at), message)
        for message in _of_form(told, outcome):
            yield document.problem((name, at), message)


def _alike(one: str, other: str) -> bool:
    """Whether two forms are the same but for a word, or for the order of none."""
    first, second = plain_words(one), plain_words(other)
    if abs(len(first) - len(second)) > 1:
        return False
    if len(first) == len(second):
        return sum(a != b for a, b in zip(first, second, strict=True)) <= 1
    longer, shorter = sorted((first, second), key=len, reverse=True)
    return any(longer[:at] + longer[at + 1 :] == shorter for at in range(len(longer)))


def _of_form(form: str, outcome: Outcome) -> Iterator[str]:
    try:
        slots = [slot for _, slot, _, _ in string.Formatter().parse(form) if slot is not None]
    except ValueError:
        yield "a brace that is not closed: slots are written {what}"
        return
    yield from _slots(slots, outcome)
    if not form.endswith((".", "?", "!")):
        yield "no full stop at its end"
    if "!" in form:
        yield "an exclamation mark: say it plainly, with a full stop"
    for sentence in re.split(r"(?<=[.?!]) ", form):
        if (count := _length(sentence)) > MOST_WORDS:
            yield f"a sentence of about {count} words: split it, {MOST_WORDS} are the most"
    yield from disagreements(form)
    yield from wrong_strength(form, outcome.says, outcome.timeless)


def _slots(slots: list[str], outcome: Outcome) -> Iterator[str]:
    for slot in dict.fromkeys(slots):
        if slot not in outcome.slots:
            yield f"no slot '{{{slot}}}'{did_you_mean(slot, outcome.slots)}"
        elif slots.count(slot) > 1:
            yield f"'{{{slot}}}' stands twice: a number is said once"
    for slot in outcome.slots:
        if slot not in slots:
            yield f"without '{{{slot}}}': each form says it"


def _length(sentence: str) -> int:
    slots = re.findall(r"\{(\w+)\}", sentence)
    rest = re.findall(r"[\w’]+", re.sub(r"\{\w+\}", " ", sentence))
    return len(rest) + sum(FILLED.get(slot, 2) for slot in slots)


def _twice(document: Document, tree: Mapping[str, Any]) -> Iterator[Problem]:
    """A form that tells two things of different strength can be true of one of them at most."""
    stood: dict[str, str] = {}
    for name, outcome in OUTCOMES.items():
        forms = tree.get(name)
        if not isinstance(forms, list):
            continue
        for at, form in enumerate(forms):
            if not isinstance(form, str):
                continue
            first = stood.setdefault(written(form), name)
            if first != name and OUTCOMES[first].says != outcome.says:
                message = f"it stands under '{first}' too, which is another thing to say: change it"
                yield document.problem((name, at), message)
