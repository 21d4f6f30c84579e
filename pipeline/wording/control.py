"""A change held against what the event did not touch."""

from __future__ import annotations

from pipeline.contracts.codes import ControlVerdict
from pipeline.contracts.finding import Finding, control_of
from pipeline.wording.scales import beyond, change_of, rose_or_fell

BEYOND: ControlVerdict = "beyond the control"


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
        return f"{but}{measured}{comma} it is {change.way()}: {change.could_be(None)}."
    none = f"M{measured}, we can’t show a change"
    if control.because == "lost_among_many":
        none = f"M{measured}, we’d call it a change alone, and not among as many as we tested"
    return f"{none}: it could be {change.could_be()}."
