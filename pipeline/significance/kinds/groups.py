"""groups: two groups of balls, the second against the first, with no event."""

from __future__ import annotations

from pipeline.contracts.finding import Finding, Groups
from pipeline.significance.question import Question


def findings(question: Question) -> list[Finding]:
    """The difference of the two groups in every cell."""
    _, first, second = question.groups
    results = question.compare_groups(question.cells, (first, second))
    return [
        Groups(
            **question.answer("groups", cell.id, cell.values, (first, second)),
            **question.numbers(result),
            felt=question.felt(cell.values, result),
        )
        for cell, result in zip(question.cells, results, strict=True)
    ]
