"""A change held against what the event did not touch."""

from __future__ import annotations

from pipeline.contracts.codes import ControlVerdict
from pipeline.contracts.finding import Finding, control_of
from pipeline.wording.scales import beyond

BEYOND: ControlVerdict = "beyond the control"


def control_said(finding: Finding) -> str | None:
    """One sentence after the drift; none where nothing changed or there is no control."""
    control = control_of(finding)
    if not control or finding.verdict != "changed":
        return None
    reach = beyond(control, finding.kind).reach()
    if control.verdict == BEYOND:
        return f"Set against {control.name}, it is still a change: {reach}."
    return f"Set against {control.name}, it could be none: anything {reach} fits."
