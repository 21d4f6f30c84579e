"""How a line follows the one before it."""

from __future__ import annotations

from pipeline.contracts.finding import Change, Finding, Gap, Groups
from pipeline.wording.scales import sign_of

OTHER_WAY = "Now the other way."
HERE = "Here it is the other way."  # of groups nothing turns in time


def linked(before: Finding, finding: Finding) -> str:
    """'Now the other way', from their own signs: nothing is invented."""
    if not isinstance(finding, Change | Groups | Gap) or type(before) is not type(finding):
        return ""  # the sign of a gap is of another thing than that of a change
    if before.verdict != "changed" or finding.verdict != "changed":
        return ""
    if sign_of(before) * sign_of(finding) >= 0:
        return ""
    return HERE if isinstance(finding, Groups) else OTHER_WAY
