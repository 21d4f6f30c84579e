"""Where captions or a script say what is to be corrected: lines for a video's description."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.contracts.errata import CaptionPlace, InCaptions
from pipeline.terminal import WIDTH, wrap
from pipeline.wording import numbers, script
from pipeline.wording.script_checked import clock, correction_said


def captions_printed(found: InCaptions) -> Iterator[str]:
    """Lines for a video's description, those that name the number's subject first."""
    if found.estimated:
        rate = f"as if read at {script.RATE} words a minute"
        yield from ["", f"In the script ({found.file}), {rate}"]
    else:
        yield from ["", f"In the captions ({found.file})"]
    wrong = [place for place in found.places if not place.right]
    right = len(found.places) - len(wrong)
    if not wrong:
        yield from wrap(_looked_for(found), WIDTH, "  ", "  ")
    named = [place for place in wrong if place.named]
    alone = [place for place in wrong if not place.named]
    if named:
        yield f"  Said where ‘{found.subject}’ is named:" if found.subject else "  Said:"
        yield from map(_stamped, named)
    if alone:
        yield "  The words alone, maybe of another number; listen before using a line:"
        yield from map(_stamped, alone)
    if right:
        yield f"  {numbers.counted(right, 'place')} may stay as said: the rounding is the same."


def _looked_for(found: InCaptions) -> str:
    if not found.subject:
        return "Nothing of what moved is said in it."
    looked_for = "; ".join(found.looked_for) or "nothing: as it was said, it still holds"
    return f"Not found. Looked for: {looked_for}."


def _stamped(place: CaptionPlace) -> str:
    if place.verdict:
        return f"{clock(place.at)} Correction: we say “{place.old}”. {place.verdict}"
    return correction_said(place.at, place.old, place.new)
