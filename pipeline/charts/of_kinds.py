"""Which module draws a beat: one a kind; a kind without one is an error."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol

from pipeline.charts.box import Box
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Around, Chart
from pipeline.charts.kinds import (
    before_after,
    gap,
    groups,
    mix,
    phases,
    players,
    share,
    streaks,
    trend,
    turning_point,
)
from pipeline.contracts.finding import Finding

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.project import Format


class Drawing(Protocol):
    """What hangs on a beat's kind in its charts."""

    def rows(self, chart: Chart) -> Sequence[Finding]:
        """The findings that are drawn, in their order."""

    def left_out(self, chart: Chart) -> int:
        """Findings that are rows of the table and not of the drawing."""

    def page_height(self, chart: Chart) -> int:
        """Pixels of the vector chart in the brief, which is 1728 wide."""

    def draw(self, canvas: Canvas, chart: Chart, around: Around, box: Box) -> None:
        """Draw into a rectangle of pixels, in the steps of the build."""

    def described(self, chart: Chart, form: Format) -> str:
        """Alternative text: what a reader who can't see the drawing needs."""


DRAWINGS: dict[str, Drawing] = {
    "before_after": before_after,
    "gap": gap,
    "groups": groups,
    "mix": mix,
    "phases": phases,
    "players": players,
    "share": share,
    "streaks": streaks,
    "trend": trend,
    "turning_point": turning_point,
}


def drawing_of(beat: AnyBeat) -> Drawing:
    """The drawing of a beat's kind."""
    return DRAWINGS[beat.kind]
