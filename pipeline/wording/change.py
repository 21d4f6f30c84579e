"""Lines to say of a change between two windows: number, feel, sureness, drift, control."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.contracts.notes import FewMatches
from pipeline.text import capitalised
from pipeline.voice.told import Told
from pipeline.wording import numbers, phrases
from pipeline.wording.clusters import usual_said
from pipeline.wording.confidence import alone_said, lost
from pipeline.wording.control import control_said
from pipeline.wording.on_the_field import felt_said
from pipeline.wording.refusals import refused_said
from pipeline.wording.scales import POINTS, change_of, rose_or_fell, sign_of
from pipeline.wording.second_verdict import drift_said
from pipeline.wording.subject import subject
from pipeline.wording.values import unit_said, values_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format


class Called(NamedTuple):
    """What a difference is called, up and down, and the words for where the second side lies."""

    noun: str
    up: str
    down: str
    ways: tuple[str, str]
    held: str  # what can't be said either, where no difference can
    alone: str  # what one that held would be called if it were tested alone


CHANGE = Called("change", "rise", "fall", phrases.TIME, "it held", "that held")
GROUPS = Called("gap", "gap", "gap", phrases.APART, "they are level", "them level")
BREAK = Called("break", "break", "break", phrases.TIME, "there is none", "that none")


def change_said(finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """The sentences of one change, at most two numbers in each."""
    what = subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(capitalised(what), finding)]
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
    said = {"what": what, "first": numbers.with_unit(a, unit_said(measure))}
    if finding.verdict == "changed":
        return Told("number.changed", rose=rose_or_fell(finding), second=b, **said)
    outcome = "number.held" if finding.verdict == "held" else "number.open"
    return Told(f"{outcome}.same", **said) if a == b else Told(outcome, second=b, **said)


def times_over(finding: Finding) -> str | None:
    """'That is twice what it was', only where it is."""
    change = finding.told.relative
    if finding.verdict != "changed" or change is None:
        return None
    times = phrases.times_said(1 + change.value)
    return f"That is {times} what it was." if times else None


def sureness(finding: Finding, called: Called, where: str = "") -> list[str]:
    """What the data can bear, with the interval in words; `where` the second group is."""
    if finding.verdict == "held":
        return [f"Allow for luck, and any {called.noun} is under {margin_said(finding)}."]
    change = change_of(finding)
    if finding.verdict == "changed":
        if called is GROUPS:
            return [f"Allow for luck, and it is {change.could_be(called.ways)}{where}."]
        noun = called.up if sign_of(finding) > 0 else called.down
        return [f"Allow for luck, and the {noun} is {change.could_be(None)}."]
    reach = f"It could be {change.could_be(called.ways)}{where}."
    if lost(finding):
        return [among_many(finding, called), reach]
    return [_open(finding, called), reach]


def among_many(finding: Finding, called: Called = CHANGE) -> str:
    """Why a difference, or that there is none, would pass alone and does not."""
    alone = f"that a {called.up if sign_of(finding) > 0 else called.down}"
    if finding.because == "held_lost_among_many":
        alone = called.alone
    family = numbers.said(finding.family_size, 0)
    return f"{alone_said(alone, f'{family} numbers')}."


def _open(finding: Finding, called: Called) -> str:
    """That neither can be said; what it does anyway, or on how few matches, where that is why."""
    if usual := usual_said(finding):
        way = called.up if sign_of(finding) > 0 else called.down
        return f"We can’t call that a {way}: {usual}."
    few = next((note for note in finding.notes if isinstance(note, FewMatches)), None)
    if few:
        return f"On {numbers.said(few.matches, 0)} matches, we can’t call it either way."
    return f"We can’t call that a {called.noun}, and we can’t say {called.held}."


def margin_said(finding: Finding) -> str:
    unit = POINTS if finding.margin.unit == "points" else "per cent"
    return phrases.amount(finding.margin.size, 1, unit)
