"""trend: the two windows of a series, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.temptations import Temptation

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format
    from pipeline.contracts.timing import Timing


class Trend(KindWords):
    """One change a measure; what is drawn are the seasons."""

    def heading(self, what: str, beat: AnyKind, form: Format) -> list[str]:
        """What a point is where the topic says so; its own period hangs on the data."""
        return [f"{what}, {beat.point} by {beat.point}" if beat.point else f"{what} over the years"]

    def compared(self, beat: AnyKind, timing: Timing, blind: bool) -> str:
        return f", by {beat.point or timing.unit}"

    def tempting(
        self, mine: Sequence[Finding], beat: AnyKind, form: Format
    ) -> Iterator[Temptation]:
        yield from ()


WORDS = Trend()
