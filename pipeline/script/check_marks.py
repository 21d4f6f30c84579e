"""The marks of a check, in the order of the script: what is where, and who has to do what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from pipeline.contracts.script_check import ClaimChecked, NumberChecked, SentenceChecked
from pipeline.script.file_checked import FileChecked
from pipeline.transcripts.passage import Passage
from pipeline.wording import script_checked
from pipeline.wording.script_checked import (
    NO_NUMBER,
    claim_corrected,
    clock,
    is_wrong,
    number_corrected,
)


class Mark(NamedTuple):
    """Words of a sentence with what is said of them; `name` is its place among all marks.

    `what` is a number's result or a claim's kind; `at` is a time in milliseconds, of captions only;
    `right` is what could be said instead, `publish` the line of a correction, of captions only.
    """

    name: str
    sentence: int
    begins: int
    ends: int
    said: str
    what: str
    told: str
    fact: str | None
    finding: str | None
    right: str | None
    mend: bool
    risk: int
    line: int | None
    at: int | None
    is_claim: bool = False
    publish: str | None = None

    @property
    def place(self) -> str:
        """'line 12', or '03:12'."""
        return f"line {self.line}" if self.at is None else clock(self.at)

    @property
    def asks(self) -> bool:
        """Whether somebody has to do something about it."""
        return self.mend or self.risk > 0


def marks_of(checked: FileChecked) -> list[Mark]:
    """Every number but those that are no statistic, and every claim."""
    found: list[Mark] = []
    pairs = zip(checked.check.sentences, checked.passages, strict=True)
    for at, (sentence, passage) in enumerate(pairs):
        own = [*_numbers(sentence, passage, at), *_claims(sentence, passage, at)]
        found += sorted(own, key=lambda mark: (mark.begins, mark.ends))
    return [mark._replace(name=str(at)) for at, mark in enumerate(found, start=1)]


def to_mend(marks: Sequence[Mark]) -> list[Mark]:
    return [mark for mark in marks if mark.mend]


def for_a_person(marks: Sequence[Mark]) -> list[Mark]:
    """What could not be decided, the highest risk first, else in the order of the script."""
    return sorted((one for one in marks if one.risk > 0 and not one.mend), key=lambda m: m.risk)


def corrections(marks: Sequence[Mark]) -> list[str]:
    """Lines to publish under a recording: each wrong number that has a fact, each claim."""
    return list(dict.fromkeys(mark.publish for mark in to_mend(marks) if mark.publish))


def _numbers(sentence: SentenceChecked, passage: Passage, at: int) -> Iterator[Mark]:
    for one in sentence.numbers:
        if one.result != NO_NUMBER:
            told = script_checked.number_told(one)
            yield _mark(one, passage, at, one.result, told, is_wrong(one))._replace(
                fact=one.fact, right=one.right, publish=_of_number(one, passage)
            )


def _claims(sentence: SentenceChecked, passage: Passage, at: int) -> Iterator[Mark]:
    for one in sentence.claims:
        told = script_checked.claim_told(one)
        yield _mark(one, passage, at, one.kind, told, True)._replace(
            finding=one.finding, right=one.instead, is_claim=True, publish=_of_claim(one, passage)
        )


def _of_number(one: NumberChecked, passage: Passage) -> str | None:
    at = passage.at(one.begins)
    return None if at is None or not one.fact else number_corrected(at, one)


def _of_claim(one: ClaimChecked, passage: Passage) -> str | None:
    at = passage.at(one.begins)
    return None if at is None else claim_corrected(at, one, passage.text)


def _mark(
    one: NumberChecked | ClaimChecked,
    passage: Passage,
    at: int,
    what: str,
    told: str,
    mend: bool,
) -> Mark:
    return Mark(
        name="",
        sentence=at,
        begins=one.begins,
        ends=one.ends,
        said=one.said,
        what=what,
        told=told,
        fact=None,
        finding=None,
        right=None,
        mend=mend,
        risk=one.risk,
        line=passage.line,
        at=passage.at(one.begins),
    )
