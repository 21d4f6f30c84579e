"""A change held against what the event did not touch."""

from __future__ import annotations

from pipeline.contracts.codes import ControlVerdict, ParallelVerdict
from pipeline.contracts.finding import Finding, control_of
from pipeline.contracts.over_time import ControlCheck
from pipeline.wording import numbers
from pipeline.wording.confidence import interval_heading
from pipeline.wording.scales import beyond, change_of, rose_or_fell

BEYOND: ControlVerdict = "beyond the control"
SIDE_BY_SIDE: dict[ParallelVerdict, str] = {
    "parallel": "yes, inside the margin",
    "not parallel": "no",
    "can't tell": "can’t tell",
}


def control_said(finding: Finding) -> str | None:
    """One sentence after the drift, whatever the first verdict is; none without a control."""
    control = control_of(finding)
    if not control or finding.refused:
        return None
    change = beyond(control, finding.kind)
    measured = f"easured against {control.name}"
    if control.verdict == BEYOND:
        turned = finding.verdict == "changed" and change.way() != change_of(finding).way()
        but = f"It {rose_or_fell(finding)}, but m" if turned else "M"
        comma = "" if turned else ","
        said = f"{but}{measured}{comma} it is {change.way()}: {change.could_be(None)}."
        return f"{said}{_few(control)}{_poor_yardstick(control)}"
    none = f"M{measured}, we can’t show a change"
    if control.because == "lost_among_many":
        none = f"M{measured}, we’d call it a change alone, and not among as many as we tested"
    could = f"{none}: it could be {change.could_be()}."
    return f"{could}{_few(control)}{_poor_yardstick(control)}"


def _few(control: ControlCheck) -> str:
    """That how its periods swing is not in its interval, where they are too few."""
    cluster = control.effect.cluster
    if cluster is None or cluster.few is None:
        return ""
    return f" There are too few {cluster.of}s for how they swing to be in that."


def _poor_yardstick(control: ControlCheck) -> str:
    """That the two had not run side by side, where that is told, and what is left of it."""
    parallel = control.parallel
    if parallel is None or parallel.verdict != "not parallel" or parallel.slope is None:
        return ""
    if parallel.slope.way > 0:
        said = f" But it had been gaining on {control.name} before that anyway, so that is a poor"
    else:
        said = f" But {control.name} had been gaining on it before that anyway, so it is a poor"
    if control.step is None:
        return f"{said} yardstick."
    if control.step_because == "step_beyond_chance":
        way = "up" if control.step.step.value > 0 else "down"
        return f"{said} yardstick; allowing for that, there is still a jump {way} against it."
    return f"{said} yardstick; allowing for that, we can’t show a jump against it."


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
