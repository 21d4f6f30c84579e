"""Which frames a topic wants, and the names of their files."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Literal, get_args

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind

FrameSet = Literal["light", "dark", "clear", "light-4k", "dark-4k", "clear-4k", "steps"]
SETS: tuple[FrameSet, ...] = get_args(FrameSet)
STEPS = 4  # axes and words, first series, second series, everything
SHEET = "contact-sheet.png"


def frame_names(chart: str, sets: list[str], blind: bool) -> Iterator[str]:
    """File names of one chart's frames: 'rate.run_rate.png', 'rate.run_rate.dark-4k.png'."""
    for name in sets:
        if name == "steps":
            yield from (f"{chart}.step-{number}.png" for number in range(1, STEPS + 1))
        else:
            yield f"{chart}.png" if name == "light" else f"{chart}.{name}.png"
    if blind:
        yield from (f"{chart}.blind.png", f"{chart}.reveal.png")


def panel_charts(beats: Iterable[AnyKind], headlines: Iterable[str]) -> dict[str, str]:
    """The chart of each headline that is asked again in other ways, by its id."""
    asked = {beat.id for beat in beats if beat.traits.panel}
    return {name: f"{name}.panel" for name in headlines if name.partition(".")[0] in asked}


def chart_files(chart: str, sets: list[str], blind: bool) -> list[str]:
    """All that is written of one chart: its vector form, its data, its frames."""
    return [f"{chart}.svg", f"{chart}.csv", *frame_names(chart, sets, blind)]
