"""The sentences of a brief that say a number, or that stand on its verdict."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from pipeline.contracts.errata import SentenceUse, Wording
from pipeline.editions.sides import ANSWER
from pipeline.errata.hearing import heard, places
from pipeline.errata.made_lines import breath_of, line_of, sorted_lines
from pipeline.errata.naming import subject_of
from pipeline.errata.number import Number, OfBeat, OfFinding, OfTopic
from pipeline.errata.records import Record
from pipeline.wording import of_kinds
from pipeline.wording.labels import beat_title
from pipeline.wording.second_verdict import second

OF_THE_DRIFT = ("drift", "step")
_DRIFT = re.compile(r"\bseason anyway\b|\bfrom season to season\b|\ba step\b")
_END = re.compile(r"(?<=[.!?]) +(?=[^a-z])")


class Candidate(NamedTuple):
    """A sentence, and whether it was made of the number's own finding."""

    sentence: str
    own: bool


def verdict_moved(old: Number, new: Number | None) -> bool:
    """Whether the verdict, or the second one beside the drift, is another now, or none."""
    if not isinstance(old, OfFinding):
        return False
    if not isinstance(new, OfFinding):
        return True
    then, now = ((one.finding.verdict, second(one.finding)) for one in (old, new))
    return then != now


def sentences(
    record: Record, now: Record, number: Number, wordings: Sequence[Wording], moved: bool
) -> list[SentenceUse]:
    """Each sentence with what it says of the number; `moved` when the verdict is another now.

    One that says nothing of it stands on the verdict: it is the finding's own, and is not among
    today's.
    """
    return [
        SentenceUse(part=part, sentence=sentence, says=says, verdict=not says)
        for part, candidates in _candidates(record, number).items()
        for sentence, own in candidates
        if (says := said_in(sentence, wordings))
        or (own and moved and sentence not in _split(now.side.lines.get(part, [])))
    ]


def said_in(sentence: str, wordings: Sequence[Wording]) -> list[Wording]:
    """The wordings that are in a sentence, each once.

    A sentence on the drift has numbers of its own: the same words are another number there.
    """
    drift = bool(_DRIFT.search(sentence))
    fitting = [one for one in wordings if not one.of or (one.of in OF_THE_DRIFT) is drift]
    found = places(heard(sentence), [(one.old, one.bare) for one in fitting])
    return [fitting[at] for at in dict.fromkeys(at for _, at in found)]


def _candidates(record: Record, number: Number) -> dict[str, list[Candidate]]:
    """By part: the answer, and the beat by its title."""
    if isinstance(number, OfTopic):
        return {}
    title = beat_title(number.beat, record.view.measures)
    answer, lines = (record.side.lines.get(part, []) for part in (ANSWER, title))
    finding = number.finding.id if isinstance(number, OfFinding) else None
    own, free = sorted_lines(lines, finding, record, line_of)
    told = [
        Candidate(sentence, line in own)
        for line in lines
        if line in own or line in free
        for sentence in _END.split(line)
    ]
    return {ANSWER: _of_answer(answer, number, record), title: told}


def _of_answer(answer: list[str], number: OfBeat, record: Record) -> list[Candidate]:
    """Sentences of its own; those that name it; and those that count verdicts, for a headline."""
    if not isinstance(number, OfFinding):
        return []
    own, free = sorted_lines(answer, number.finding.id, record, breath_of)
    told = [*own, *(line for line in free if names(line, subject_of(number)))]
    if number.finding.id in record.findings.headlines:
        every = _headline_subjects(record)
        told += [line for line in free if not any(names(line, each) for each in every)]
    return [Candidate(line, True) for line in answer if line in told]


def _headline_subjects(record: Record) -> list[str]:
    view, found = record.view, []
    beats = {beat.id: beat for beat in view.beats}
    for finding in map(record.finding, record.findings.headlines):
        if finding:
            measure = view.measures[finding.measure]
            found.append(of_kinds.measured(finding, beats[finding.beat], measure, view.format))
    return found


def names(sentence: str, what: str) -> bool:
    """Whether the subject is in it, and not as a part of one that has an owner."""
    return bool(re.search(rf"(?<!’s )(?<!s’ ){re.escape(what)}\b", sentence, re.IGNORECASE))


def _split(lines: Iterable[str]) -> list[str]:
    return [sentence for line in lines for sentence in _END.split(line)]
