"""streaks: how often so many came in a row, and how often for each that the rate would make."""

from __future__ import annotations

from pipeline.contracts.finding import Finding
from pipeline.significance.question import Question
from pipeline.significance.windows import divided_changes


def findings(question: Question) -> list[Finding]:
    """The change of every cell; a ratio to what is expected is a ratio of two sums like any."""
    return divided_changes(question)
