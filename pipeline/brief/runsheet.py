"""The run sheet: beats in order with cue, opening line and time, sponsor slots, running total."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pipeline.brief.beats import BeatPage
from pipeline.wording import script

if TYPE_CHECKING:
    from pipeline.config.topic import Sponsor


@dataclass(frozen=True, kw_only=True)
class RunRow:
    """A beat, or a sponsor's slot, which has only what it is called and its times."""

    id: str | None = None  # of the beat
    sponsor: str | None = None
    position: int | None = None
    title: str = ""
    charts: list[str] = field(default_factory=list)
    opening: str = ""
    words: int | None = None
    time: str
    total: str  # so far


@dataclass(frozen=True)
class RunSheet:
    """Times at 160 words a minute; `range` from 180 to 150."""

    rows: list[RunRow]
    words: int
    total: str
    range: str
    rate: str
    rates: str


def run_sheet(pages: Sequence[BeatPage], sponsors: Sequence[Sponsor]) -> RunSheet:
    """Rows of beats, each followed by its slots, with what they add up to."""
    clock = script.Clock()
    rows = [row for page in pages for row in _rows(page, sponsors, clock)]
    return RunSheet(
        rows=rows,
        words=sum(row.words or 0 for row in rows),
        total=clock.total,
        range=clock.range,
        rate=script.AT,
        rates=script.FROM_TO,
    )


def _rows(page: BeatPage, sponsors: Sequence[Sponsor], clock: script.Clock) -> Iterator[RunRow]:
    words = sum(script.words(line) for line in page.lines)
    usual, fastest, slowest = script.timing(words)
    yield RunRow(
        id=page.id,
        position=page.position,
        title=page.title,
        charts=[part.chart.chart for part in page.parts],
        opening=opening(page.lines),
        words=words,
        time=script.clock(usual),
        total=clock.run(usual, fastest, slowest),
    )
    for slot in sponsors:
        if slot.after == page.id:
            yield RunRow(
                sponsor=slot.say or "Sponsor",
                time=script.clock(slot.seconds),
                total=clock.run(slot.seconds, slot.seconds, slot.seconds),
            )


def opening(lines: Sequence[str]) -> str:
    """The first sentence of the first line; a beat may have none to say."""
    if not lines:
        return ""
    found = re.match(r".+?[.!?](?=\s|$)", lines[0])
    return found.group() if found else lines[0]
