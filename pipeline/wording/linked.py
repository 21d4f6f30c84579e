"""How a line follows the one before it."""

from __future__ import annotations

from pipeline.contracts.finding import Change, Finding, Gap, Groups

OTHER_WAY = "Now the other way."


def linked(before: Finding, finding: Finding) -> str:
    """'Now the other way', from their own signs: nothing is invented."""
    if not isinstance(finding, Change | Groups | Gap) or type(before) is not type(finding):
        return ""  # the sign of a gap is of another thing than that of a change
    if before.verdict != "changed" or finding.verdict != "changed":
        return ""
    opposite = before.told.difference.value * finding.told.difference.value < 0
    return f"{OTHER_WAY} " if opposite else ""
