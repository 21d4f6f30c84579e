"""What is wrong with a voice file: unknown outcomes, too few forms, slots, words too strong."""

from __future__ import annotations

import string
from collections.abc import Iterator
from typing import Any

from pipeline.config.yaml_files import Document
from pipeline.errors import Problem, did_you_mean
from pipeline.voice.outcomes import OUTCOMES, Outcome


def problems_of(document: Document) -> list[Problem]:
    """Every mistake of a voice file with its line, in its order."""
    tree = document.tree
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
    return wrong


def _of_outcome(document: Document, name: str, outcome: Outcome, forms: Any) -> Iterator[Problem]:
    if not isinstance(forms, list) or not all(isinstance(form, str) for form in forms):
        yield document.problem((name,), "give a list of sentences")
        return
    if len(forms) < outcome.forms:
        yield document.problem((name,), f"{len(forms)} forms: give {outcome.forms} or more")
    for at, form in enumerate(forms):
        if form in forms[:at]:
            yield document.problem((name, at), "this form stands twice: take one away")
        for message in _of_form(form, outcome):
            yield document.problem((name, at), message)


def _of_form(form: str, outcome: Outcome) -> Iterator[str]:
    try:
        slots = [slot for _, slot, _, _ in string.Formatter().parse(form) if slot is not None]
    except ValueError:
        yield "a brace that is not closed: slots are written {what}"
        return
    for slot in dict.fromkeys(slots):
        if slot not in outcome.slots:
            yield f"no slot '{{{slot}}}'{did_you_mean(slot, outcome.slots)}"
        elif slots.count(slot) > 1:
            yield f"'{{{slot}}}' stands twice: a number is said once"
    for slot in outcome.slots:
        if slot not in slots:
            yield f"without '{{{slot}}}': each form says it"
    if not form.endswith((".", "?", "!")):
        yield "no full stop at its end"
