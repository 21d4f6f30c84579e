"""phases: the change of every band of overs, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.text import listed
from pipeline.wording import numbers
from pipeline.wording.kinds.base import KindWords

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format

MOST_BANDS = 3  # that a heading names


class Phases(KindWords):
    """Rows along the innings."""

    def heading(self, what: str, beat: AnyKind, form: Format) -> list[str]:
        return [f"{what}, {_along(beat, form)}", f"{what}, along the innings"]


def _along(beat: AnyKind, form: Format) -> str:
    """'over by over', 'five overs at a time', 'overs 1–6 and 20–30'."""
    bands = beat.ranges(form.overs)
    named = [str(first) if first == last else f"{first}–{last}" for first, last in bands]
    if len(bands) <= MOST_BANDS:
        return f"{'over' if named[0].isdigit() and len(named) == 1 else 'overs'} {listed(named)}"
    each = {last - first + 1 for first, last in bands[:-1]}  # the last may be what is left
    if len(each) > 1:
        return "along the innings"
    (size,) = each
    return "over by over" if size == 1 else f"{numbers.said(size, 0)} overs at a time"


WORDS = Phases()
