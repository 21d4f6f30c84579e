"""The sentences of a brief that say a number, or that stand on its verdict."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from pipeline.contracts.errata import SentenceUse, Wording
from pipeline.contracts.finding import Finding
from pipeline.editions.sides import ANSWER
from pipeline.errata.hearing import heard, places
from pipeline.errata.made_lines import line_of, sorted_lines, told_in_answer
from pipeline.errata.number import Number, OfBeat, OfFinding, OfTopic
from pipeline.errata.records import Record
from pipeline.errata.told_of import BEYOND_CONTROL, may_tell
from pipeline.said.naming import subject_of
from pipeline.text import capitalised
from pipeline.wording import of_kinds
from pipeline.wording.headings import headings_of
from pipeline.wording.linked import is_link
from pipeline.wording.subject import subject

# What people say, asked, is one with what the data say to it: “It rose”? The data agree.
_END = re.compile(r"(?<=[.!?])(?<!”\?) +(?=[^a-z])")


class Candidate(NamedTuple):
    """A sentence, and whether it is of the number's own finding."""

    sentence: str
    own: bool


def sentences(
    record: Record, now: Record, number: Number, wordings: Sequence[Wording], moved: bool
) -> list[SentenceUse]:
    """Each sentence with what it says of the number; `moved` when a verdict is another now.

    One stands on the verdict that is the finding's own, says no wrong number, and is not among
    today's.
    """
    found = []
    for part, candidates in _candidates(record, number).items():
        today = _split(_lines_now(part, record, now))
        for sentence, own in candidates:
            says = said_in(sentence, wordings)
            fallen = own and moved and sentence not in today and all(one.right for one in says)
            if says or fallen:
                found.append(
                    SentenceUse(part=part, sentence=sentence, says=says, verdict=fallen, own=own)
                )
    return found


def said_in(sentence: str, wordings: Sequence[Wording]) -> list[Wording]:
    """The wordings that are in a sentence, each once, of the parts that it may tell."""
    fitting = [one for one in wordings if may_tell(sentence, one.of)]
    found = places(heard(sentence), [(one.old, one.bare) for one in fitting])
    return [fitting[at] for at in dict.fromkeys(at for _, at in found)]


def _candidates(record: Record, number: Number) -> dict[str, list[Candidate]]:
    """By part: the answer, by its title each beat that tells it, and what stands around these."""
    if isinstance(number, OfTopic):
        return {}
    asked = asked_alike(record, number)
    ids = dict.fromkeys([number.beat.id, *(finding.beat for finding in asked)])
    named = titles(record)
    return {
        ANSWER: _of_answer(number, asked, record),
        **{
            title: _of_beat(title, asked, record)
            for title in dict.fromkeys(named[each] for each in ids)
        },
        **{part: _of_around(lines, asked, record) for part, lines in record.around.items()},
    }


def titles(record: Record) -> dict[str, str]:
    """What its beats are headed, by id; an edition of 0.9 or before has the measure for a title."""
    view, found = record.view, headings_of(record.view)
    for beat in view.beats:
        measure = capitalised(view.measures[beat.measures[0]].label)
        if found[beat.id] not in record.side.lines and measure in record.side.lines:
            found[beat.id] = measure
    return found


def _lines_now(part: str, record: Record, now: Record) -> list[str]:
    """Today's lines of the same part: the answer, or the same beats under today's headings."""
    if part == ANSWER:
        return now.side.lines.get(ANSWER, [])
    if part in record.around:
        return now.around.get(part, [])
    today = titles(now)
    beats = [beat for beat, title in titles(record).items() if title == part and beat in today]
    return [line for beat in beats for line in now.side.lines.get(today[beat], [])]


def asked_alike(record: Record, number: Number) -> list[Finding]:
    """The number's finding, and those of other beats that ask the same; none of a beat's number.

    A change that is held against another control is the same one, but for what is beyond that.
    """
    if not isinstance(number, OfFinding):
        return []
    asks, of_control = number.finding.asks, number.part == BEYOND_CONTROL
    return [
        finding
        for finding in record.findings.findings
        if finding.asks.look == asks.look
        and (not of_control or finding.asks.identity == asks.identity)
    ]


def _of_beat(title: str, asked: list[Finding], record: Record) -> list[Candidate]:
    """Sentences of lines that were made of it, or of none."""
    lines = record.side.lines.get(title, [])
    own, free = sorted_lines(lines, [finding.id for finding in asked], record, line_of)
    named = [] if own else _named(free, title, asked, record)
    return [
        Candidate(sentence, line in own or line in named)
        for line in lines
        if line in own or line in free
        for sentence in _END.split(line)
        if not is_link(sentence)
    ]


def _named(lines: list[str], title: str, asked: list[Finding], record: Record) -> list[str]:
    """Lines in other words than today's that name what it is of, and nothing longer that is told.

    'The strike rate at number 8' is not what names 'the strike rate at number 8 and number 9'.
    """
    beats = {beat for beat, named in titles(record).items() if named == title}
    here = [finding for finding in record.findings.findings if finding.beat in beats]
    every = {each for finding in here for each in _subjects(finding, record)}
    mine = {each for finding in asked for each in _subjects(finding, record)}
    found = []
    for line in lines:
        there = [each for each in every if names(line, each)]
        if there and max(there, key=len) in mine:
            found.append(line)
    return found


def _subjects(finding: Finding, record: Record) -> set[str]:
    """What its line may be said to be of; a gap's is of both groups, and of the second."""
    view = record.view
    beat = next(beat for beat in view.beats if beat.id == finding.beat)
    told = finding, beat, view.measures[finding.measure], view.format
    return {subject(*told), of_kinds.measured(*told)}


def _of_answer(number: OfBeat, asked: list[Finding], record: Record) -> list[Candidate]:
    """Sentences of its own; those that name it; and those that count verdicts, for a headline."""
    answer = record.side.lines.get(ANSWER, [])
    ids = [finding.id for finding in asked]
    own, free = sorted_lines(answer, ids, record, told_in_answer)
    told = [*own, *(line for line in free if asked and names(line, subject_of(number)))]
    if set(ids) & set(record.findings.headlines):
        every = _headline_subjects(record)
        told += [line for line in free if not any(names(line, each) for each in every)]
    return _own(line for line in answer if line in told)


def _of_around(lines: list[str], asked: list[Finding], record: Record) -> list[Candidate]:
    """Sentences of its own before or after the beats, of which a brief keeps what each is of."""
    ids = {finding.id for finding in asked}
    return _own(line for line in lines if ids & record.said.get(line, set()))


def _own(lines: Iterable[str]) -> list[Candidate]:
    return [Candidate(sentence, True) for sentence in _split(lines)]


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
