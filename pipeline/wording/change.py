"""Lines to say of a change between two windows: number, feel, sureness, drift, control."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding
from pipeline.contracts.notes import FewMatches
from pipeline.voice.sentence import Told
from pipeline.wording import numbers, phrases
from pipeline.wording.clusters import usual_of
from pipeline.wording.confidence import lost, tested_with
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

    up: str
    down: str
    ways: tuple[str, str]
    alone: str  # what one that held, and is lost among many, is told as


CHANGE = Called("rise", "fall", phrases.TIME, "held")
GROUPS = Called("gap", "gap", phrases.APART, "level")
GAP = Called("difference", "difference", phrases.APART, "level")  # of two changes
BREAK = Called("break", "break", phrases.TIME, "none")


def change_said(finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> list[str]:
    """The sentences of one change, at most two numbers in each."""
    what = subject(finding, beat, measure, form)
    if finding.refused:
        return [refused_said(what, finding)]
    said = [_number(what, finding, measure), times_over(finding)]
    said += [felt_said(finding, measure, form), *sureness(finding, CHANGE)]
    said += [*drift_said(finding), *control_said(finding)]
    return [sentence for sentence in said if sentence]


def _number(what: str, finding: Finding, measure: Measure) -> str:
    a, b = values_said(finding, measure)
    said = {"what": what, "first": numbers.with_unit(a, unit_said(measure))}
    if finding.verdict == "changed":
        return Told(f"number.{rose_or_fell(finding)}", second=b, **said)
    outcome = "number.held" if finding.verdict == "held" else "number.open"
    return Told(f"{outcome}.same", **said) if a == b else Told(outcome, second=b, **said)


def times_over(finding: Finding) -> str | None:
    """'That’s twice what it was', only where it is."""
    change = finding.told.relative
    if finding.verdict != "changed" or change is None:
        return None
    times = phrases.times_said(1 + change.value)
    return Told("times.changed", times=times) if times else None


def sureness(finding: Finding, called: Called, where: str = "") -> list[str]:
    """What the data can bear, with the interval in words; `where` the second group is."""
    of_groups = called is GROUPS
    if finding.verdict == "held":
        return [Told("sure.held.gap" if of_groups else "sure.held", margin=margin_said(finding))]
    change = change_of(finding)
    if finding.verdict == "changed":
        if of_groups:
            reach = change.could_be(called.ways)
            return [Told("sure.changed.gap", reach=reach, where=where)]
        noun = called.up if sign_of(finding) > 0 else called.down
        return [Told(f"sure.changed.{noun}", reach=change.could_be(None))]
    if of_groups:
        reach = Told("reach.gap", reach=change.could_be(called.ways), where=where)
    else:
        reach = Told("reach.change", reach=change.could_be(called.ways))
    return [among_many(finding, called) if lost(finding) else _open(finding, called), reach]


def among_many(finding: Finding, called: Called = CHANGE) -> Told:
    """Why a difference, or that there is none, would pass alone and does not."""
    tested = tested_with(finding)
    if finding.because == "held_lost_among_many":
        return Told(f"open.many.{called.alone}", tested=tested)
    way = called.up if sign_of(finding) > 0 else called.down
    return Told("open.many.way", way=way, tested=tested)


def _open(finding: Finding, called: Called) -> str:
    """That neither can be said; what it does anyway, or on how few matches, where that is why."""
    if usual := usual_of(finding):
        way = called.up if sign_of(finding) > 0 else called.down
        return Told(f"open.usual.{usual.by}", way=way, **usual.slots)
    few = next((note for note in finding.notes if isinstance(note, FewMatches)), None)
    if few:
        return Told("open.few", matches=numbers.said(few.matches, 0))
    return Told("open.plain.gap" if called is GROUPS else "open.plain")


def margin_said(finding: Finding) -> str:
    unit = POINTS if finding.margin.unit == "points" else "per cent"
    return phrases.amount(finding.margin.size, 1, unit)
