"""trend: the two windows of a series, with the drift's line to be drawn through the seasons."""

from __future__ import annotations

from pipeline.contracts.finding import Finding
from pipeline.significance.question import WHOLE, Question
from pipeline.significance.windows import changes


def findings(question: Question) -> list[Finding]:
    """One change, of all its balls; none where the topic has no event to divide the series."""
    if question.compared.empty:
        return []
    return changes(question, [WHOLE], question.scale.per)
