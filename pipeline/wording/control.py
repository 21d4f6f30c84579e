"""A change held against what the event did not touch."""

from __future__ import annotations

from typing import Any

from pipeline.wording import phrases

View = dict[str, Any]
BEYOND = "beyond the control"


def control_said(finding: View) -> str | None:
    """One sentence after the drift; none where nothing changed or there is no control."""
    control = finding["control"]
    if not control or finding["verdict"] != "changed":
        return None
    reach = control_range(finding)
    if control["verdict"] == BEYOND:
        return f"Set against {control['name']}, it is still a change: {reach}."
    return f"Set against {control['name']}, it could be none: anything {reach} fits."


def control_range(finding: View) -> str:
    control = finding["control"]
    if finding["kind"] == "share":
        return phrases.interval_said(
            control["difference_low"], control["difference_high"], "points"
        )
    return phrases.interval_said(
        control["change_low"] * 100, control["change_high"] * 100, "per cent"
    )
