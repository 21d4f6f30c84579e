"""What of a finding's conclusion stands: its verdict with the reason, the drift, the control."""

from __future__ import annotations

from pipeline.contracts.codes import ControlVerdict, DriftVerdict
from pipeline.contracts.finding import Finding, control_of
from pipeline.errata.number import Number, OfFinding
from pipeline.wording import numbers
from pipeline.wording.confidence import level_shown, lost, one_of_looks_said
from pipeline.wording.second_verdict import asked
from pipeline.wording.tested import JUDGED


def moved(old: Number, new: Number | None) -> bool:
    """Whether a verdict, or what is said of the looks, the drift or the control is another now.

    Or none, where the finding is no more.
    """
    if not isinstance(old, OfFinding):
        return False
    return not isinstance(new, OfFinding) or _changed(old.finding, new.finding)


def stands(old: Number, new: Number | None) -> list[str]:
    """Sentences on the verdict, then on each of the others that is another now."""
    if not isinstance(old, OfFinding) or not isinstance(new, OfFinding):
        return []
    was, now = old.finding, new.finding
    return [*_verdict(was, now), *_interval(was, now), *_drift(was, now), *_control(was, now)]


def _changed(was: Finding, now: Finding) -> bool:
    then, today = ((one.verdict, lost(one)) for one in (was, now))
    return then != today or bool([*_drift(was, now), *_control(was, now)])


def _verdict(was: Finding, now: Finding) -> list[str]:
    old, new = (one.verdict.replace("'", "’") for one in (was, now))
    many = one_of_looks_said(now)
    if old != new:
        why = f", as {many}" if many else ""
        return [f"The verdict does not stand: it was ‘{old}’, and is ‘{new}’{why}."]
    told = [f"The verdict is the same: {new}."]
    if was.because != now.because:
        before, after = (JUDGED[one.because] for one in (was, now))
        told.append(f"Its reason is another: it was ‘{before}’, and is ‘{after}’.")
    elif many and was.family_size != now.family_size:
        told.append(f"It was {one_of_looks_said(was)}, and is one of {_said(now.family_size)}.")
    return told


def _interval(was: Finding, now: Finding) -> list[str]:
    """That an interval is of another confidence, which is no change of the number."""
    if was.effect is None or now.effect is None:
        return []
    then, today = (level_shown(one.level) for one in (was.effect, now.effect))
    if then == today:
        return []
    moved = f"Its interval is of {today} now and was of {then}"
    if now.effect.level < was.effect.level:
        return [f"{moved}, which is no change of the number."]
    allows = "it allows for how many numbers are tested together, which is no change of the number"
    return [f"{moved}: {allows}."]


def _drift(was: Finding, now: Finding) -> list[str]:
    before, after = drift_told(was), drift_told(now)
    if before is None or before == after:
        return []
    return [f"What is said of the drift does not stand: {_was_and_is(before, after)}."]


def _control(was: Finding, now: Finding) -> list[str]:
    before, after = control_told(was), control_told(now)
    if before is None or before == after:
        return []
    return [f"What is said of the control does not stand: {_was_and_is(before, after)}."]


def drift_told(finding: Finding) -> DriftVerdict | None:
    """The second verdict, where its brief told it.

    Until drifts had intervals it was told only of what had changed.
    """
    drift = asked(finding)
    if drift is None:
        return None
    old = drift.test is not None and drift.test.slope.low is None
    return None if old and finding.verdict != "changed" else drift.verdict


def control_told(finding: Finding) -> ControlVerdict | None:
    """The control's verdict, where its brief told it; it has the error of its log since then."""
    control = control_of(finding)
    if control is None or finding.refused:
        return None
    old = control.effect.relative is not None and control.effect.se_log is None
    return None if old and finding.verdict != "changed" else control.verdict


def _was_and_is(before: str, after: str | None) -> str:
    return f"it was ‘{before}’, and is {f'‘{after}’' if after else 'not asked any more'}"


def _said(count: int) -> str:
    return numbers.said(count, 0)
