"""Lines to say of a gap: did one group change more than the other?"""

from __future__ import annotations

from typing import Any

from pipeline.wording import phrases
from pipeline.wording.changes import among_many, margin_said, range_said, refused_said
from pipeline.wording.drift import drift_said
from pipeline.wording.labels import capitalised, side_labels
from pipeline.wording.subject import subject

View = dict[str, Any]


def gap_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """Both changes, then whether their difference is one."""
    first, second = side_labels(finding, beat, form)
    what = capitalised(subject(finding, beat, measure, form))
    if finding["refused"]:
        return [refused_said(f"{what}, {second} against {first}", finding)]
    both = f"{what}: {first} {_went(finding, 'a')}, {second} {_went(finding, 'b')}."
    reach = range_said(finding)
    if finding["verdict"] == "changed":
        more = "up" if finding["difference"] > 0 else "down"
        sure = [
            f"That is a real gap: against {first}, {second} {_verb(second)} {more} by "
            f"{_unsigned(reach)}."
        ]
    elif finding["verdict"] == "held":
        sure = [f"They moved together: if one moved more, it is under {margin_said(finding)}."]
    elif finding["because"] == "lost_among_many":
        sure = [f"{among_many(finding)} Anything {reach} fits."]
    else:
        sure = [f"Whether one moved more than the other can’t be called: anything {reach} fits."]
    return [sentence for sentence in (both, *sure, drift_said(finding)) if sentence]


def _verb(group: str) -> str:
    return "are" if group.endswith("s") else "is"


def _unsigned(reach: str) -> str:
    return reach.removesuffix(" up").removesuffix(" down")


def _went(finding: View, side: str) -> str:
    """'up about three per cent': one group's own change."""
    part = finding[side]
    if finding["kind"] == "share":
        half = (part["high"] - part["low"]) / 2
        said, value = phrases.size(part["value"], half, 1, "points"), part["value"]
    else:
        half = (part["change_high"] - part["change_low"]) / 2
        said = phrases.size(part["change"] * 100, half * 100, 1, "per cent")
        value = part["change"]
    return f"{'up' if value > 0 else 'down'} {said}"
