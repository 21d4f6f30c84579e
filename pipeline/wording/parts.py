"""Lines to say of a mix: who did what, and how well."""

from __future__ import annotations

from typing import Any

from pipeline.wording import numbers, phrases
from pipeline.wording.changes import (
    among_many,
    margin_said,
    range_said,
    refused_said,
    unit_said,
    values_said,
)
from pipeline.wording.labels import capitalised
from pipeline.wording.subject import subject

View = dict[str, Any]


def mix_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """What the change of who did what was worth by itself."""
    if finding["refused"]:
        return [refused_said("Who did what", finding)]
    way = "up" if finding["difference"] > 0 else "down"
    if finding["verdict"] == "held":
        return [
            f"Who did what is worth next to nothing here: by itself under {margin_said(finding)}."
        ]
    half = (finding["difference_high"] - finding["difference_low"]) / 2
    size = phrases.size(finding["difference"], half, measure["decimals"], measure["unit"])
    if finding["verdict"] == "changed":
        return [f"Who did what changed too, and by itself took it {way} {size}."]
    if finding["because"] == "lost_among_many":
        return [f"Who did what took it {way} {size}. {among_many(finding)}"]
    return [f"Whether who did what moved it can’t be called: anything {range_said(finding)} fits."]


def rates_said(finding: View, beat: View, measure: View, form: View) -> list[str]:
    """The whole with the mix held still."""
    what = subject(finding, beat, measure, form)
    if finding["refused"]:
        return [refused_said(f"With the mix held still, {what}", finding)]
    a, b = values_said(finding, measure)
    first = numbers.with_unit(a, unit_said(measure))
    start = "With the same mix in both windows,"
    reach = range_said(finding)
    if finding["verdict"] == "changed":
        verb = "rose" if finding["difference"] > 0 else "fell"
        return [f"{start} {what} {verb} from {first} to {b}.", f"That part is real: {reach}."]
    if finding["verdict"] == "held":
        return [f"{start} {what} held: if the rates moved, it is under {margin_said(finding)}."]
    if finding["because"] == "lost_among_many":
        return [f"{start} {what} went from {first} to {b}. {among_many(finding)}"]
    return [f"{start} {what} could have gone either way: anything {reach} fits."]


def share_said(finding: View, beat: View, form: View, name: str) -> str | None:
    """How much of it a group had before and after, to the whole per cent."""
    a, b = (numbers.said(share * 100, 0) for share in finding["shares"])
    verb = "had" if beat["by"][0] in ("batter_hand",) else "bowled"
    if a == b:
        return f"{capitalised(name)} {verb} {a} per cent of it in both windows."
    return f"{capitalised(name)} {verb} {a} per cent of it before, {b} after."
