"""Why a number can't be called, in one plain line: what its finding says of it, and no more."""

from __future__ import annotations

from pipeline.contracts.finding import Finding, Gap, Groups, Turn
from pipeline.contracts.notes import FewMatches
from pipeline.text import capitalised
from pipeline.wording import numbers, phrases
from pipeline.wording.clusters import usual_said
from pipeline.wording.confidence import lost
from pipeline.wording.leads import figure, moved
from pipeline.wording.refusals import refusal_said
from pipeline.wording.scales import change_of, sign_of
from pipeline.wording.second_verdict import in_short

BY_LUCK = "A break this large turns up often enough by luck"
NO_CHANGE = {"change": "no change", "gap": "no gap", "break": "no break"}


def why_not(finding: Finding) -> str:
    """Of a finding that can't be told, why, and the step beside its drift where there is one."""
    if finding.refused:
        return f"{capitalised(refusal_said(finding))}."
    if finding.verdict != "can't tell":
        return ""
    return f"{_reason(finding)}{in_short(finding)}."


def _reason(finding: Finding) -> str:
    if lost(finding):
        looks = _looks_like(finding)
        tested = numbers.shown(finding.family_size, 0)
        return f"By itself it would look {looks}, but it is one of {tested} numbers tested"
    if usual := usual_said(finding):
        return capitalised(usual)
    if isinstance(finding, Turn):
        return BY_LUCK
    few = next((note for note in finding.notes if isinstance(note, FewMatches)), None)
    fits = _fits(finding)
    if few:
        matches = numbers.matches(few.matches)
        return f"On only {matches}, {fits[:1].lower()}{fits[1:]}"
    return fits


def _looks_like(finding: Finding) -> str:
    """What it would be called if it were tested alone: 'like a rise', 'level'."""
    called = moved(finding)
    if finding.because == "held_lost_among_many":
        return "like no break" if called == "break" else "level"
    if called != "change":
        return f"like a {called}"
    return "like a rise" if sign_of(finding) > 0 else "like a fall"


def _fits(finding: Finding) -> str:
    """'A fall of 5% and a rise of 3% both fit': the ends of its interval."""
    change = change_of(finding)
    low, high, decimals = phrases.ends_told(change.span.low, change.span.high)
    ends = [_end(finding, end, figure(end, decimals, change.unit)) for end in (low, high)]
    return capitalised(f"{ends[0]} and {ends[1]} both fit")


def _end(finding: Finding, end: float, size: str) -> str:
    if not end:
        return NO_CHANGE[moved(finding)]
    if isinstance(finding, Groups | Gap):
        return f"{size} {'higher' if end > 0 else 'lower'}"
    return f"a {'rise' if end > 0 else 'fall'} of {size}"
