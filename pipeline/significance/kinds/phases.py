"""phases: the change of every band of overs across the event."""

from __future__ import annotations

from pipeline.contracts.finding import Finding
from pipeline.significance.question import Question
from pipeline.significance.windows import changes


def findings(question: Question) -> list[Finding]:
    """The change of all overs, then of every band."""
    return changes(question, question.cells)
