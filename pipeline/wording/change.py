"""Lines to say of a change between two windows: number, feel, sureness, drift, control."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.contracts.notes import FewMatches
from pipeline.text import capitalised
from pipeline.wording import numbers, phrases
from pipeline.wording.control import control_said
from pipeline.wording.on_the_field import felt_said
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import change_of
from pipeline.wording.second_verdict import drift_said
from pipeline.wording.subject import subject
from pipeline.wording.values import unit_said, values_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format


class Called(NamedTuple):
    """What a difference is called, and how a line begins that says there is none to speak of."""

    noun: str
    if_any: str


CHANGE = Called("change", "If anything changed")
GROUPS = Called("gap", "If there is a gap")


def change_said(finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """The sentences of one change, at most two numbers in each."""
    what = capitalised(subject(finding, beat, measure, form))
    if finding.refused:
        return [refused_said(what, finding)]
    said = [
        _number(what, finding, measure),
        times_over(finding),
        felt_said(finding, measure, form),
        *sureness(finding, CHANGE),
        drift_said(finding),
        control_said(finding),
    ]
    return [sentence for sentence in said if sentence]


def _number(what: str, finding: Finding, measure: Measure) -> str:
    a, b = values_said(finding, measure)
    first = numbers.with_unit(a, unit_said(measure))
    if finding.verdict == "held":
        if a == b:
            return f"{what} is where it was: {first}."
        return f"{what} is nearly the same: {first} then, {b} now."
    if finding.verdict == "changed":
        return f"{what} {rose_or_fell(finding)} from {first} to {b}."
    if a == b:
        return f"{what} was {first} before, and the same after."
    return f"{what} was {first} before, and {b} after."


def rose_or_fell(finding: Finding) -> str:
    return "rose" if finding.told.difference.value > 0 else "fell"


def times_over(finding: Finding) -> str | None:
    """'That is twice what it was', only where it is."""
    change = finding.told.relative
    if finding.verdict != "changed" or change is None:
        return None
    times = phrases.times_said(1 + change.value)
    return f"That is {times} what it was." if times else None


def sureness(finding: Finding, called: Called) -> list[str]:
    """What the data can bear, with the interval in words."""
    if finding.verdict == "held":
        return [f"{called.if_any}, it is under {margin_said(finding)}."]
    reach = change_of(finding).reach()
    if finding.because == "lost_among_many":
        return [among_many(finding), f"Anything {reach} fits."]
    if finding.verdict == "can't tell":
        return [f"{_few(finding)} can’t tell that from no {called.noun}: anything {reach} fits."]
    return [f"With luck allowed for, that is {reach}."]


def among_many(finding: Finding) -> str:
    """Why a difference that would pass alone does not."""
    family = numbers.said(finding.family_size, 0)
    way = "rise" if finding.told.difference.value > 0 else "fall"
    return (
        f"By itself that would pass for a {way}; it was one of {family} looks, and so it doesn’t."
    )


def _few(finding: Finding) -> str:
    """'The data', or how little there is of it."""
    few = next((note for note in finding.notes if isinstance(note, FewMatches)), None)
    return f"{capitalised(numbers.said(few.matches, 0))} matches" if few else "The data"


def margin_said(finding: Finding) -> str:
    unit = "points" if finding.margin.unit == "points" else "per cent"
    return phrases.amount(finding.margin.size, 1, unit)
