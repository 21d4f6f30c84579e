"""The run sheet: beats in order with cue, opening line and time, sponsor slots, running total."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pipeline.brief.beats import BeatPage
from pipeline.brief.spoken import Spoken
from pipeline.slots.drafted import ANSWER, CLOSE, COLD_OPEN
from pipeline.voice.line import Line
from pipeline.wording import script

if TYPE_CHECKING:
    from pipeline.config.topic import Sponsor


@dataclass(frozen=True, kw_only=True)
class RunRow:
    """A beat, what is said around the beats, or a sponsor's slot.

    A slot has only what it is called and its times.
    """

    id: str | None = None  # of the beat
    sponsor: str | None = None
    position: int | None = None
    title: str = ""
    role: str = ""
    charts: list[str] = field(default_factory=list)
    opening: str = ""
    words: int | None = None
    time: str
    total: str  # so far


@dataclass(frozen=True)
class RunSheet:
    """Times at 160 words a minute; `range` from 180 to 150.

    `other` is another order of the beats, by their headings, and `reason` why it may be better.
    """

    rows: list[RunRow]
    other: list[str]
    reason: str
    words: int
    total: str
    range: str
    rate: str
    rates: str


def run_sheet(said: Spoken, sponsors: Sequence[Sponsor]) -> RunSheet:
    """Rows of the cold open, the answer, the beats, each followed by its slots, and the close."""
    clock, around = script.Clock(), said.around
    rows = [
        *_around(COLD_OPEN, around.cold_open, clock),
        *_around(ANSWER, around.answer, clock),
        *(row for page in said.pages for row in _rows(page, sponsors, clock)),
        *_around(CLOSE, around.close, clock),
    ]
    titles = {page.id: page.title for page in said.pages}
    return RunSheet(
        other=[titles[beat] for beat in said.other_order],
        reason=said.reason,
        rows=rows,
        words=sum(row.words or 0 for row in rows),
        total=clock.total,
        range=clock.range,
        rate=script.AT,
        rates=script.FROM_TO,
    )


def _around(title: str, lines: Sequence[Line], clock: script.Clock) -> Iterator[RunRow]:
    """What is said before or after the beats, where there is any."""
    if not lines:
        return
    texts = [line.text for line in lines]
    count, time = _timed(texts, clock)
    yield RunRow(title=title, opening=opening(texts), words=count, time=time, total=clock.total)


def _timed(texts: Sequence[str], clock: script.Clock) -> tuple[int, str]:
    """Words of these texts and their time, which passes."""
    count = sum(map(script.words, texts))
    usual, fastest, slowest = script.timing(count)
    clock.run(usual, fastest, slowest)
    return count, script.clock(usual)


def _rows(page: BeatPage, sponsors: Sequence[Sponsor], clock: script.Clock) -> Iterator[RunRow]:
    words, time = _timed(page.said, clock)
    yield RunRow(
        id=page.id,
        position=page.position,
        title=page.title,
        charts=[part.chart.chart for part in page.parts],
        role=page.role or "",
        opening=page.opening.text if page.opening else opening(page.said),
        words=words,
        time=time,
        total=clock.total,
    )
    for slot in sponsors:
        if slot.after == page.id:
            clock.run(slot.seconds, slot.seconds, slot.seconds)
            yield RunRow(
                sponsor=slot.say or "Sponsor",
                time=script.clock(slot.seconds),
                total=clock.total,
            )


def opening(lines: Sequence[str]) -> str:
    """The first sentence of the first line; a beat may have none to say."""
    if not lines:
        return ""
    found = re.match(r".+?[.!?](?=\s|$)", lines[0])
    return found.group() if found else lines[0]
