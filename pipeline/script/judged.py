"""Sentences as they are judged by a topic's facts, by earlier editions, by what it cites."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from pipeline.contracts.editions import FromEditions
from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import Fact
from pipeline.contracts.findings import Findings
from pipeline.contracts.script_check import SentenceChecked
from pipeline.said.check import Sentence, checked, is_stopped, unjudged
from pipeline.said.topic_known import known_of
from pipeline.script.file_checked import Judge
from pipeline.transcripts.passage import Passage

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

MOST = 10_000  # numbers of a file that are judged: some hundred hours of talk
LONG_AGO = 60_000  # milliseconds between two sentences


def judge_of(
    view: BriefView,
    findings: Findings,
    facts: Sequence[Fact],
    episode: Episode | None,
    others: FromEditions | None = None,
) -> Judge:
    """What judges sentences against all of that; a brief of before may have no episode."""
    others = others or FromEditions()
    earlier = [(each.edition, each.facts) for each in others.earlier]
    known = known_of(view, findings, facts, earlier, episode)
    also = [
        known_of(type(view).model_validate(each.view), each.findings, each.facts)
        for each in others.cited
    ]
    known = replace(known, also=also)

    def judge(passages: Sequence[Passage]) -> list[SentenceChecked]:
        found: list[SentenceChecked] = []
        left: int | None = MOST
        for stretch in _stretches(passages):
            said = [asked(one) for one in stretch]
            if left is None:
                found += map(unjudged, said)
                continue
            told = checked(said, known, max(0, left))
            found += told
            left = None if is_stopped(told) else left - sum(len(one.numbers) for one in told)
        return found

    return judge


def asked(passage: Passage) -> Sentence:
    """The sentence as it is judged."""
    place = passage.line, passage.start, passage.heading, passage.begins
    return Sentence(passage.text, *place, passage.breaks)


def _stretches(passages: Sequence[Passage]) -> Iterator[Sequence[Passage]]:
    """Sentences that are said in one go: what was named long before is not what one is of."""
    begins = 0
    for at, (one, following) in enumerate(pairwise(passages), start=1):
        if one.start is not None and (following.start or 0) - one.start > LONG_AGO:
            yield passages[begins:at]
            begins = at
    yield passages[begins:]
