"""Sentences as they are judged by a topic's facts, and by what its earlier editions said."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import EarlierFacts, Fact
from pipeline.contracts.findings import Findings
from pipeline.contracts.script_check import SentenceChecked
from pipeline.said.check import Sentence, checked
from pipeline.said.topic_known import known_of
from pipeline.script.file_checked import Judge
from pipeline.transcripts.passage import Passage

if TYPE_CHECKING:
    from pipeline.config.views import BriefView


def judge_of(
    view: BriefView,
    findings: Findings,
    facts: Sequence[Fact],
    episode: Episode | None,
    earlier: Sequence[EarlierFacts] = (),
) -> Judge:
    """What judges sentences against all of that; a brief of before may have no episode."""
    known = known_of(view, findings, facts, [(e.edition, e.facts) for e in earlier], episode)

    def judge(passages: Sequence[Passage]) -> list[SentenceChecked]:
        told = [Sentence(one.text, one.line, one.start, one.heading) for one in passages]
        return checked(told, known)

    return judge
