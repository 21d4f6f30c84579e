"""Two topics beside each other: their findings matched by id, each with its own answer.

No number here is made of both: what is not tested is not told.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from msgspec.structs import replace

from pipeline.contracts.comparison import Comparison
from pipeline.contracts.editions import Settings
from pipeline.contracts.facts import Fact, Summary
from pipeline.contracts.finding import Finding, control_of, drift_of
from pipeline.contracts.findings import Findings
from pipeline.contracts.two_topics import (
    Answered,
    AskedOtherwise,
    InBoth,
    InOne,
    Number,
    Question,
    TwoTopics,
)
from pipeline.editions.difference import said, settings_moved
from pipeline.text import slug
from pipeline.wording.refusals import refusal_said

# Of the facts of a finding: when it turned, what came out of it, and what is left of that when
# luck is allowed for. A change in per cent stands for the same in units.
PARTS = ("date", "change", "luck-allowed-for")
UNITS = "difference"
HEAD = ("topic", "title", "question")  # told at the top


class Built(NamedTuple):
    """A topic as it is built: all that it says, and what its stages saw of the configuration."""

    summary: Summary
    findings: Findings
    facts: list[Fact]
    settings: Settings


def beside(first: Built, second: Built) -> TwoTopics:
    """What both answer, what only one does, and what they ask otherwise."""
    one, other = ({each.id: each for each in built.findings.findings} for built in (first, second))
    shared = [name for name in one if name in other]
    alike = [name for name in shared if same_question(one[name].asks, other[name].asks)]
    marked = {*first.findings.headlines, *second.findings.headlines}
    answers = _answers(first), _answers(second)
    return TwoTopics(
        first=_question(first),
        second=_question(second),
        asked_otherwise=list(_asked_otherwise(first, second)),
        both=[
            InBoth(
                id=name,
                headline=name in marked,
                first=answers[0][name],
                second=answers[1][name],
            )
            for name in alike
        ],
        only_first=_only(first, answers[0], other),
        only_second=_only(second, answers[1], one),
        not_alike=[name for name in shared if name not in alike],
    )


def same_question(one: Comparison, other: Comparison) -> bool:
    """Whether two ask the same of their balls; seasons and controls are each topic's own.

    The sides of a comparison of groups are the groups, which must be the same.
    """
    return _without_time(one) == _without_time(other)


def _without_time(asks: Comparison) -> Comparison:
    sides = asks.sides if asks.asks == "groups" else None
    return replace(asks, sides=sides, control=None)


def _question(built: Built) -> Question:
    summary = built.summary
    return Question(
        topic=summary.topic,
        title=summary.title,
        question=summary.question,
        matches=summary.matches,
        first=summary.first,
        last=summary.last,
        fingerprint=summary.fingerprint,
    )


def _asked_otherwise(first: Built, second: Built) -> Iterator[AskedOtherwise]:
    for moved in settings_moved(first.settings, second.settings):
        if moved.where not in HEAD:
            yield AskedOtherwise(where=moved.where, first=moved.was, second=moved.now)


def _only(built: Built, answers: dict[str, Answered], others: dict[str, Finding]) -> list[InOne]:
    return [
        InOne(id=name, headline=name in built.findings.headlines, answer=answer)
        for name, answer in answers.items()
        if name not in others
    ]


def _answers(built: Built) -> dict[str, Answered]:
    facts: dict[str, dict[str, Fact]] = {}
    for fact in built.facts:
        if fact.finding:
            part = fact.id.removeprefix(f"{fact.finding}.")
            facts.setdefault(fact.finding, {})[part] = fact
    return {each.id: _answered(each, facts.get(each.id, {})) for each in built.findings.findings}


def _answered(finding: Finding, facts: dict[str, Fact]) -> Answered:
    """A finding as its topic tells it; `facts` are its own, by the end of their ids."""
    values = {name: facts[slug(name)] for name in finding.sides if slug(name) in facts}
    drift, control = drift_of(finding), control_of(finding)
    refused = finding.refused is not None
    return Answered(
        sides={name: fact.display for name, fact in values.items()},
        unit=next((fact.unit for fact in values.values() if not _has_unit(fact)), None),
        numbers=[] if refused else list(_numbers(facts)),
        verdict=finding.verdict,
        drift=drift.verdict if drift and not refused else None,
        control=control.verdict if control and not refused else None,
        refused=refusal_said(finding) if refused else None,
    )


def _has_unit(fact: Fact) -> bool:
    """Whether its unit stands in the number as it is shown: '+4.7%', '−1.0 pts'."""
    return not fact.display[-1:].isdigit()


def _numbers(facts: dict[str, Fact]) -> Iterator[Number]:
    for part in PARTS:
        name = UNITS if part == "change" and part not in facts else part
        told = said(facts.get(name))
        if told is not None:
            yield Number(part=name, said=told)
