"""What stands behind one number: headings and words, in the order in which a challenge goes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pipeline.contracts.codes import Refusal
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding, Gap, Mix, Rates, Turn, control_of
from pipeline.contracts.over_time import ControlCheck, Drift
from pipeline.contracts.parts import CONFIDENCE, GroupChange, Side
from pipeline.wording import numbers, second_verdict
from pipeline.wording.clusters import by_shown
from pipeline.wording.confidence import interval_heading, level_shown, one_of_looks
from pipeline.wording.interval_methods import method_of
from pipeline.wording.scales import Scaled, beyond
from pipeline.wording.tested import JUDGED, among_the_looks, shuffled

if TYPE_CHECKING:
    from pipeline.config.measure import Measure

Named = tuple[str, str]


def behind(fact: Fact, finding: Finding | None, measure: Measure | None) -> Iterator[Named]:
    """(heading, words) pairs of a fact; `finding` and `measure` where it has them."""
    yield "what", f"{fact.definition}; in {fact.unit}"
    if finding:
        yield from _sides(finding, measure)
        yield from _test(finding)
    if fact.interval:
        made = method_of(fact, finding, measure)
        level = level_shown(CONFIDENCE if fact.level is None else fact.level)
        yield "interval", f"{fact.interval} ({level}; {made})"
    if fact.arithmetic:
        yield "arithmetic", fact.arithmetic


def _sides(finding: Finding, measure: Measure | None) -> Iterator[Named]:
    """Both sides with what they were made of, where a ratio of two sums is all that they are."""
    summed = not isinstance(finding, Gap | Mix | Rates | Turn)
    for side, name in zip((finding.a, finding.b), finding.sides, strict=True):
        if side.refused:
            yield name, f"no number: {_plainly(side.refused)}"
            continue
        value = side.difference if isinstance(side, GroupChange) else side
        if value is None or value.value is None:
            raise ValueError(f"{finding.id} has a side that is not refused and has no value")
        sums = f" from {_sums(side, measure)}" if summed else ""
        counts = f"{numbers.matches(side.matches)}, {numbers.counted(side.balls, 'ball')}"
        yield name, f"{numbers.figures(value.value)}{sums}; {counts}"


def _sums(side: Side | GroupChange, measure: Measure | None) -> str:
    """Numerator over denominator, and what they count."""
    sums = f"{side.numerator:,} / {side.denominator:,}"
    if measure is None:
        return sums
    times = f" × {numbers.figures(measure.per)}" if measure.per != 1 else ""
    return f"{sums}{times} ({measure.numerator} / {measure.denominator})"


def _test(finding: Finding) -> Iterator[Named]:
    if finding.refused:
        yield "verdict", f"{finding.verdict}: {_plainly(finding.refused)}"
        return
    p = numbers.p_shown(finding.told.p)
    yield "test", f"{p}{by_shown(finding)}; {among_the_looks(finding)}{shuffled(finding)}"
    among = f": {looks}" if (looks := one_of_looks(finding)) else ""
    yield "verdict", f"{finding.verdict} ({JUDGED[finding.because]}{among})"
    if drift := second_verdict.asked(finding):
        yield "drift", _drift(drift, second_verdict.numbers_behind(finding))
    if control := control_of(finding):
        yield "control", _control(control, beyond(control, finding.kind))
    if finding.again:
        yield "as in", f"{finding.again}, which answers the same question: one look, one verdict"


def _drift(drift: Drift, line: str | None) -> str:
    """The second verdict with its numbers, or why there is none."""
    if line is None:
        return f"{drift.verdict}: {second_verdict.reason(drift)}"
    many = drift.because == "step_lost_among_many"
    among = (
        f" (lost among many: one of {numbers.shown(drift.family_size, 0)} steps)" if many else ""
    )
    return f"{drift.verdict}{among}: {line[:1].lower()}{line[1:]}"


def _control(control: ControlCheck, change: Scaled) -> str:
    """The verdict beside the control with its numbers."""
    many = " (lost among many)" if control.because == "lost_among_many" else ""
    heading = interval_heading(control.effect.level)
    ends = f"{change.shown()}, {heading} {change.interval()}"
    return f"{control.verdict}{many}: {control.name}; {ends}, {numbers.p_shown(control.effect.p)}"


def _plainly(code: Refusal) -> str:
    """The code as it is read: 'few matches'."""
    return code.replace("_", " ")
