"""Lines to say of a gap: did one group change more than the other?"""

from __future__ import annotations

from typing import Any

from pipeline.config.cuts import CUTS
from pipeline.text import capitalised, possessive
from pipeline.wording import phrases
from pipeline.wording.change import among_many, margin_said, range_said, refused_said
from pipeline.wording.labels import side_labels, value_label
from pipeline.wording.second_verdict import drift_said
from pipeline.wording.subject import subject

View = dict[str, Any]


def gap_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """Both changes, then whether their difference is one."""
    first, second = side_labels(finding, beat, form)
    what = capitalised(subject(finding, beat, measure, form))
    if finding["refused"]:
        return [refused_said(f"{what}, {second} against {first}", finding)]
    both = f"{what}: {first} went {_went(finding, 'a')}, {second} {_went(finding, 'b')}."
    reach = range_said(finding)
    if finding["verdict"] == "changed":
        sure = [f"The difference is real: against {first}, {second} came out {reach}."]
    elif finding["verdict"] == "held":
        sure = [f"They moved together: if one moved more, it is under {margin_said(finding)}."]
    elif finding["because"] == "lost_among_many":
        sure = [f"{among_many(finding)} Anything {reach} fits."]
    else:
        sure = [f"Whether one moved more than the other can’t be called: anything {reach} fits."]
    drift = drift_said(finding, f"Against {first}, {second}")
    return [sentence for sentence in (both, *sure, drift) if sentence]


def gap_subject(finding: View, beat: View, measure: View, form: View) -> tuple[str, str]:
    """(what it is set against, whose number it is): ("pace’s", "spin’s economy at the death")."""
    (cut,) = beat["between"]
    first, second = finding["sides"]
    own = {**finding, "values": {cut: second, **finding["values"]}}
    name = value_label(cut, first, form)
    return possessive(name) if CUTS[cut].owner else name, subject(own, beat, measure, form)


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
