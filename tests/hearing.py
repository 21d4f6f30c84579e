"""Everything wrong with all that is said of one finding: its numbers, and both its verdicts."""

from __future__ import annotations

from tests.any_findings import Case
from tests.claim_patterns import wrong
from tests.verdict_words import wrong_second_words, wrong_words


def all_wrong(text: str, case: Case) -> list[str]:
    """What a text says of a finding that is not so, or leaves out."""
    found = [*wrong(text, case), *wrong_words(text, case.finding)]
    return found if case.finding.refused else [*found, *wrong_second_words(text, case.finding)]
