"""Why there is no number: the reason, and the line that gives it."""

from __future__ import annotations

from pipeline.contracts.codes import Refusal
from pipeline.contracts.finding import Finding
from pipeline.wording import numbers

REFUSALS: dict[Refusal, str] = {
    "no_balls": "there is not a ball of it",
    "few_matches": "there are too few matches",
    "none_counted": "it never happened on one side",
    "one_match_holds_all": "one match holds all of it",
    "few_effective": "a few long matches outweigh the rest",
    "no_spread": "its matches are all alike",
    "mix_alike": "the mix is the same in every match",
    "few_points": "there are too few seasons to look for a date",
    "no_scatter": "its seasons show no scatter that a step could be held against",
}


def refused_said(what: str, finding: Finding) -> str:
    """Why there is no number of it."""
    fewest = min(finding.a.matches, finding.b.matches)
    if finding.refused == "few_matches" and fewest:
        count = numbers.said(fewest, 0)
        noun = "match" if fewest == 1 else "matches"
        return f"{what}: only {count} {noun} on one side, so no number worth saying."
    return f"{what}: {refusal_said(finding)}, so no number worth saying."


def refusal_said(finding: Finding) -> str:
    """The reason alone: 'there are too few matches'."""
    if finding.refused is None:
        raise ValueError(f"{finding.id} is not refused")
    return REFUSALS[finding.refused]
