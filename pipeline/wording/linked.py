"""How a line follows the one before it."""

from __future__ import annotations

from pipeline.contracts.finding import Change, Finding, Gap, Groups
from pipeline.voice.forms import voice
from pipeline.voice.sentence import Told
from pipeline.wording.scales import sign_of


def linked(before: Finding, finding: Finding) -> str:
    """'Now the other way', from their own signs: nothing is invented. Groups turn in no time."""
    if not isinstance(finding, Change | Groups | Gap) or type(before) is not type(finding):
        return ""  # the sign of a gap is of another thing than that of a change
    if before.verdict != "changed" or finding.verdict != "changed":
        return ""
    if sign_of(before) * sign_of(finding) >= 0:
        return ""
    return Told("link.here" if isinstance(finding, Groups) else "link.other_way")


def is_link(sentence: str) -> bool:
    """Whether a sentence only says how its line follows the one before."""
    forms = voice().of
    return any(sentence in forms[each] for each in ("link.other_way", "link.here"))
