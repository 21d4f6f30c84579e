"""What `compare` says of two topics: two questions, each with its own answer."""

from __future__ import annotations

from datetime import date
from typing import Any

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import ControlVerdict, DriftVerdict, Verdict
from pipeline.contracts.editions import Said


class Question(Contract, kw_only=True):
    """One of the two topics as it is built: what it asks, and of which matches."""

    topic: str
    title: str
    question: str
    matches: str  # as printed
    first: date
    last: date
    fingerprint: str


class AskedOtherwise(Contract, kw_only=True):
    """A setting that the two have otherwise, and what each has."""

    where: str
    first: Any
    second: Any


class Number(Contract, kw_only=True):
    """A number of an answer; `part` is the end of its fact's id: 'change', 'difference', 'date'."""

    part: str
    said: Said


class Answered(Contract, kw_only=True):
    """One topic's answer to a finding.

    `sides` are both of its values as shown, by their names, and `unit` theirs, none where it is
    shown with them; where there is no number with an interval `refused` says why, in words.
    """

    sides: dict[str, str]
    unit: str | None
    numbers: list[Number]
    verdict: Verdict
    drift: DriftVerdict | None
    control: ControlVerdict | None
    refused: str | None


class InBoth(Contract, kw_only=True):
    """A finding of one id that asks the same in both, of the matches of each."""

    id: str
    headline: bool
    first: Answered
    second: Answered


class InOne(Contract, kw_only=True):
    """A finding that only one of them has."""

    id: str
    headline: bool
    answer: Answered


class TwoTopics(Contract, kw_only=True):
    """Two questions beside each other, in the order of the first one's findings.

    `not_alike` are ids that both have and that ask different things. No difference between the two
    is tested, and none is in here.
    """

    first: Question
    second: Question
    asked_otherwise: list[AskedOtherwise]
    both: list[InBoth]
    only_first: list[InOne]
    only_second: list[InOne]
    not_alike: list[str]
