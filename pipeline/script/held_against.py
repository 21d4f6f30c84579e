"""What a topic's scripts are judged by, from its findings and charts: no brief need be made yet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from pipeline.brief.content import context
from pipeline.brief.facts import facts_of
from pipeline.brief.spoken import episode_of
from pipeline.contracts.editions import FromEditions
from pipeline.contracts.facts import Fact
from pipeline.contracts.files import as_written, read_json
from pipeline.contracts.findings import Findings
from pipeline.editions.reading import MAKE, read_charts
from pipeline.script.cited_facts import cited_facts
from pipeline.script.earlier_facts import earlier_facts
from pipeline.script.file_checked import Judge
from pipeline.script.judged import judge_of

if TYPE_CHECKING:
    from pipeline.config.views import BriefView


class ByFacts(NamedTuple):
    """The facts as facts.json will have them, what editions said, and who judges by both."""

    facts: list[Fact]
    others: FromEditions
    judge: Judge


def by_facts(
    view: BriefView, out: Path, archive: Path, others: FromEditions | None = None
) -> ByFacts:
    """From the findings and charts in `out`; `others` is asked of the archive unless given.

    Raises UserError where either is not there.
    """
    findings = read_json(out / "findings.json", Findings)
    facts = facts_of(view, findings)
    content = context(view, findings, read_charts(out, MAKE), facts, [])
    episode = episode_of(content.topic, content.said)
    facts = [as_written(fact) for fact in facts]
    if others is None:
        earlier = earlier_facts(view.topic, facts, archive)
        others = FromEditions(earlier=earlier, cited=cited_facts(view, archive))
    return ByFacts(facts, others, judge_of(view, findings, facts, episode, others))
