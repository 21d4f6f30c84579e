"""A change held against what the event did not touch."""

from __future__ import annotations

from pipeline.contracts.codes import ControlVerdict, ParallelVerdict
from pipeline.contracts.finding import Finding, control_of
from pipeline.contracts.over_time import ControlCheck
from pipeline.voice.sentence import Told
from pipeline.wording import numbers
from pipeline.wording.confidence import interval_heading
from pipeline.wording.scales import beyond, change_of, rose_or_fell

BEYOND: ControlVerdict = "beyond the control"
SIDE_BY_SIDE: dict[ParallelVerdict, str] = {
    "parallel": "yes, inside the margin",
    "not parallel": "no",
    "can't tell": "can’t tell",
}


def control_said(finding: Finding) -> list[str]:
    """The sentences after the drift, whatever the first verdict is; none without a control."""
    control = control_of(finding)
    if not control or finding.refused:
        return []
    return [_against(finding, control), *_few(control), *_poor_yardstick(control)]


def _against(finding: Finding, control: ControlCheck) -> str:
    """What is left of the change beside the control's."""
    change, name = beyond(control, finding.kind), control.name
    if control.verdict != BEYOND:
        many = control.because == "lost_among_many"
        reach = change.could_be()
        return Told("control.many" if many else "control.open", name=name, reach=reach)
    said = {"name": name, "way": change.way(), "reach": change.could_be(None)}
    if finding.verdict == "changed" and change.way() != change_of(finding).way():
        return Told("control.turned", rose=rose_or_fell(finding), **said)
    return Told("control.beyond", **said)


def _few(control: ControlCheck) -> list[str]:
    """That how its periods swing is not in its interval, where they are too few."""
    cluster = control.effect.cluster
    if cluster is None or cluster.few is None:
        return []
    return [Told("control.few", units=f"{cluster.of}s")]


def _poor_yardstick(control: ControlCheck) -> list[str]:
    """That the two had not run side by side, where that is told, and what is left of it."""
    parallel = control.parallel
    if parallel is None or parallel.verdict != "not parallel" or parallel.slope is None:
        return []
    gaining = "gaining" if parallel.slope.way > 0 else "losing"
    poor = Told(f"control.poor.{gaining}", name=control.name)
    if control.step is None:
        return [poor]
    if control.step_because == "step_beyond_chance":
        way = "up" if control.step.step.value > 0 else "down"
        return [poor, Told("control.poor.jump", way=way)]
    return [poor, Told("control.poor.no_jump")]


def parallel_shown(control: ControlCheck) -> str | None:
    """Whether the two ran side by side, and the step of their gap, with the numbers."""
    parallel = control.parallel
    if parallel is None:
        return None
    before = numbers.counted(parallel.periods, "period")
    if parallel.slope is None or parallel.p is None:
        return f"side by side before the event: can’t tell from {before}"
    slope = numbers.percent(parallel.slope.value)
    said = (
        f"side by side before the event: {SIDE_BY_SIDE[parallel.verdict]} ({slope} a "
        f"{parallel.per} on it over {before}, {numbers.p_shown(parallel.p)})"
    )
    if control.step is None:
        return said
    step, level = control.step.step, interval_heading(control.step.level)
    ends = numbers.between(step.low * 100, step.high * 100, 1)
    return f"{said}; step of the gap {numbers.percent(step.value)}, {level} {ends}"
