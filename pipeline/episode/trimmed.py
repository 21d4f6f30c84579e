"""Which sentences of a finding are said: the doubt once, and what a presenter can say at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.voice.line import Line
from pipeline.voice.sentence import Told

NO_STEP = ("drift.none", "drift.in_line", "drift.untested")


def trimmed(sentences: Sequence[str], finding: Finding, findings: Findings) -> list[str]:
    """The sentences without those that the page's table and its "If challenged" hold.

    That no step can be shown, or that a drift can't be tested, claims nothing, so it is said of a
    change only. In how many ways it was asked is said of a headline that can be told.
    """
    settled = finding.verdict != "can't tell"
    left_out = [
        *([] if finding.verdict == "changed" else NO_STEP),
        *([] if settled and finding.id in findings.headlines else ["panel."]),
    ]
    return [each for each in sentences if not _is_of(each, left_out)]


def said_once(lines: Sequence[Line], heard: set[str]) -> list[Line]:
    """The lines without a doubt about the drift that was `heard` before, for the same reason."""
    kept = []
    for line in lines:
        doubts = {each for each in line.sentences if _is_of(each, ["drift.untested"])}
        left = tuple(each for each in line.sentences if each not in doubts & heard)
        heard |= doubts
        kept.append(replace(line, sentences=left))
    return kept


def _is_of(sentence: str, outcomes: Sequence[str]) -> bool:
    if not isinstance(sentence, Told):
        return False
    return any(sentence.outcome.startswith(name) for name in outcomes)
