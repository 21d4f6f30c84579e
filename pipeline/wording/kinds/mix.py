"""Lines to say of a mix: who did what, and how well."""

from __future__ import annotations

from typing import Any

from pipeline.config.cuts import OF_BATTER
from pipeline.text import capitalised
from pipeline.wording import numbers, phrases
from pipeline.wording.change import (
    among_many,
    margin_said,
    range_said,
    refused_said,
    unit_said,
    values_said,
)
from pipeline.wording.labels import cell_label, where_phrase
from pipeline.wording.subject import phrase, subject

View = dict[str, Any]


def who_did(beat: View) -> str:
    """Whose work the mix is of: 'who bowled it', or who faced it."""
    return "who faced it" if set(beat["by"]) & OF_BATTER else "who bowled it"


def mix_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """What the change of who did what was worth by itself."""
    who = who_did(beat)
    if finding["refused"]:
        return [refused_said(capitalised(who), finding)]
    way = "up" if finding["difference"] > 0 else "down"
    if finding["verdict"] == "held":
        return [f"{capitalised(who)} hardly matters: by itself it is under {margin_said(finding)}."]
    half = (finding["difference_high"] - finding["difference_low"]) / 2
    size = phrases.size(finding["difference"], half, measure["decimals"], measure["unit"])
    if finding["verdict"] == "changed":
        return [f"A change in {who} took it {way} by itself: {size}."]
    if finding["because"] == "lost_among_many":
        return [f"A change in {who} took it {way}: {size}. {among_many(finding)}"]
    reach = range_said(finding)
    return [f"Whether a change in {who} moved it can’t be called: anything {reach} fits."]


def rates_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """The whole with the mix held still."""
    what = subject(finding, beat, measure, form)
    if finding["refused"]:
        return [refused_said(f"With the mix held still, {what}", finding)]
    a, b = values_said(finding, measure)
    first = numbers.with_unit(a, unit_said(measure))
    start = "With the same mix in both,"
    reach = range_said(finding)
    if finding["verdict"] == "changed":
        verb = "rose" if finding["difference"] > 0 else "fell"
        return [f"{start} {what} {verb} from {first} to {b}.", f"That part is real: {reach}."]
    if finding["verdict"] == "held":
        return [f"{start} {what} held: if the rates moved, it is under {margin_said(finding)}."]
    if finding["because"] == "lost_among_many":
        return [f"{start} {what} went from {first} to {b}. {among_many(finding)}"]
    return [f"{start} {what} could have gone either way: anything {reach} fits."]


def share_said(finding: View, beat: View, form: View) -> str:
    """How much of it a group had before and after, to the whole per cent."""
    a, b = (numbers.said(share * 100, 0) for share in finding["shares"])
    simple = [phrases.share_said(share) for share in finding["shares"]]
    if a != b and not any("per cent" in said for said in simple):
        a, b, of_all = *simple, ""
    else:
        of_all = " per cent"
    verb = "faced" if set(beat["by"]) & OF_BATTER else "bowled"
    where = where_phrase(beat["where"], form) if not beat["where"].get("phase") else ""
    phases = phrase("phase", beat["where"]["phase"], form) if beat["where"].get("phase") else ""
    of = f"of the balls {phases}".rstrip() + where
    name = cell_label(finding["values"], form)
    if a == b:
        return f"{name} {verb} {a}{of_all} {of}, before and after."
    return f"{name} {verb} {a}{of_all} {of} before, {b} after."
