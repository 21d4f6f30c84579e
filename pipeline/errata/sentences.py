"""The sentences of a brief that say a number, or that stand on its verdict."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from contextlib import suppress
from typing import Any

from pipeline.errata.forms import Form
from pipeline.errata.hearing import heard, places
from pipeline.errata.naming import subject_of
from pipeline.errata.versions import Record, Told, finding_of
from pipeline.text import capitalised
from pipeline.wording import of_kinds
from pipeline.wording.second_verdict import second

View = dict[str, Any]
ANSWER = "The answer"  # as `compare` calls the part before the first beat
_DRIFT = re.compile(r"\bseason anyway\b|\bfrom season to season\b|\ba step\b")
_END = re.compile(r"(?<=[.!?]) +(?=[^a-z])")


def verdict_moved(old: Told, new: Told | None) -> bool:
    """Whether the verdict, or the second one beside the drift, is another now, or none."""
    if old.finding is None:
        return False
    if new is None or new.finding is None:
        return True
    verdicts = [(told.finding["verdict"], second(told.finding)) for told in (old, new)]
    return verdicts[0] != verdicts[1]


def sentences(
    record: Record, now: Record, told: Told, forms: list[Form], moved: bool
) -> list[View]:
    """Each sentence with what it says of it; `moved` when the verdict is another now.

    A list of `part` (the answer, or a beat's title), `sentence`, `says` (forms) and `verdict`:
    that it has none of the forms, and is not among today's sentences.
    """
    return [
        {"part": part, "sentence": sentence, "says": says, "verdict": not says}
        for part, candidates in _candidates(record, told).items()
        for sentence, own in candidates
        if (says := _says(sentence, forms)) or (own and moved and not _still(sentence, part, now))
    ]


def _says(sentence: str, forms: list[Form]) -> list[View]:
    """The forms that are in a sentence, each once.

    A sentence on the drift has numbers of its own: the same words are another number there.
    """
    drift = bool(_DRIFT.search(sentence))
    forms = [form for form in forms if not form.of or (form.of in ("drift", "step")) is drift]
    found = places(heard(sentence), [(form.old, form.bare) for form in forms])
    said = [forms[at] for at in dict.fromkeys(at for _, at in found)]
    return [form._asdict() for form in said]


def _candidates(record: Record, told: Told) -> dict[str, list[tuple[str, bool]]]:
    """By part: (sentence, whether it was made of the very finding)."""
    answer = record.side.lines.get(ANSWER, [])
    lines = record.side.lines.get(title(told), [])
    if told.beat is None:
        return {}
    own, free = _sorted(lines, told, record, _line)
    made = [(line, line in own) for line in lines if line in own or line in free]
    part = [(sentence, mine) for line, mine in made for sentence in _END.split(line)]
    return {ANSWER: _of_answer(answer, told, record), title(told): part}


def title(told: Told) -> str:
    """The beat's title, as the brief has it."""
    if told.beat is None:
        return ""
    return told.beat["title"] or capitalised(told.measure["label"] if told.measure else "")


def _of_answer(answer: list[str], told: Told, record: Record) -> list[tuple[str, bool]]:
    """Sentences of its own; those that name it; and those that count verdicts, for a headline."""
    if told.finding is None:
        return []
    own, free = _sorted(answer, told, record, _breath)
    named = [line for line in free if names(line, subject_of(told))]
    counted = []
    if told.finding["id"] in record.findings["headlines"]:
        every = [_subject(record, name) for name in record.findings["headlines"]]
        counted = [line for line in free if not any(names(line, each) for each in every)]
    return [(line, True) for line in answer if line in (*own, *named, *counted)]


def _subject(record: Record, name: str) -> str:
    finding = finding_of(record, name)
    beat, measure = _surroundings(record, finding)
    form = record.view["format"]
    return subject_of(Told({}, finding, beat, measure, form, None))


def names(sentence: str, what: str) -> bool:
    """Whether the subject is in it, and not as a part of one that has an owner."""
    return bool(re.search(rf"(?<!’s )(?<!s’ ){re.escape(what)}\b", sentence, re.IGNORECASE))


def _sorted(
    lines: list[str], told: Told, record: Record, make: Callable[[Record, View], str]
) -> tuple[list[str], list[str]]:
    """(lines made of the finding, lines made of none that can be made again)."""
    own, others = [], set()
    for finding in record.findings["findings"]:
        made = None
        with suppress(KeyError):  # an edition of an earlier version may lack what a line needs
            made = make(record, finding)
        if not made:
            continue
        here = [line for line in lines if line.lower().endswith(made.lower())]
        if told.finding and finding["id"] == told.finding["id"]:
            own += here
        else:
            others.update(here)
    return own, [line for line in lines if line not in own and line not in others]


def _line(record: Record, finding: View) -> str:
    beat, measure = _surroundings(record, finding)
    view = record.view
    return " ".join(of_kinds.said(finding, beat, measure, view["format"], view["event"]))


def _breath(record: Record, finding: View) -> str | None:
    if finding["id"] not in record.findings["headlines"] or finding["refused"]:
        return None
    beat, measure = _surroundings(record, finding)
    view = record.view
    return of_kinds.in_short(finding, beat, measure, view["format"], view["event"])


def _surroundings(record: Record, finding: View) -> tuple[View, View]:
    beat = next(beat for beat in record.view["beats"] if beat["id"] == finding["beat"])
    return beat, record.view["measures"][finding["measure"]]


def _still(sentence: str, part: str, now: Record) -> bool:
    """Whether the brief as built now says the very same in the same part."""
    return sentence in _split(now.side.lines.get(part, []))


def _split(lines: Iterable[str]) -> list[str]:
    return [sentence for line in lines for sentence in _END.split(line)]
