"""A change held against what the event did not touch."""

from __future__ import annotations

from pipeline.contracts.codes import ControlVerdict
from pipeline.contracts.finding import Finding, control_of
from pipeline.wording.scales import beyond

BEYOND: ControlVerdict = "beyond the control"


def control_said(finding: Finding) -> str | None:
    """One sentence after the drift, whatever the first verdict is; none without a control."""
    control = control_of(finding)
    if not control or finding.refused:
        return None
    reach = beyond(control, finding.kind).reach()
    if control.verdict == BEYOND:
        return f"Set against {control.name}, it came out {reach}."
    if control.because == "lost_among_many":
        return (
            f"Set against {control.name}, it would pass by itself for a change; as one of many "
            f"looks it doesn’t: anything {reach} fits."
        )
    return f"Set against {control.name}, it could be none: anything {reach} fits."
