"""Which sentences of a finding are said: the doubt once, and what a presenter can say at all."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.voice.told import Told


def trimmed(sentences: Sequence[str], finding: Finding, findings: Findings) -> list[str]:
    """The sentences without those that the page's table and its "If challenged" hold.

    That neither a drift nor a step can be shown claims nothing, so it is said of a change only. In
    how many ways it was asked is said of a headline that can be told.
    """
    settled = finding.verdict != "can't tell"
    left_out = [
        *([] if finding.verdict == "changed" else ["drift.none"]),
        *([] if settled and finding.id in findings.headlines else ["panel."]),
    ]
    return [each for each in sentences if not _is_of(each, left_out)]


def _is_of(sentence: str, outcomes: Sequence[str]) -> bool:
    if not isinstance(sentence, Told):
        return False
    return any(sentence.outcome.startswith(name) for name in outcomes)
