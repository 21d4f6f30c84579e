"""What is said, from the pages: each line in its form, and the episode as it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.brief.beats import BeatPage
from pipeline.contracts.episode import Episode, SpokenBeat, SpokenLine
from pipeline.episode.line import Line
from pipeline.voice.choosing import Voice


def voiced(pages: Sequence[BeatPage]) -> list[BeatPage]:
    """The pages with each sentence in a form of its own."""
    voice, made = Voice(), []
    for page in pages:
        voice.turn_page()
        parts = [
            replace(part, told=[line.voiced(voice) for line in part.told]) for part in page.parts
        ]
        made.append(replace(page, parts=parts))
    return made


def episode_of(topic: str, answer: Sequence[str], pages: Sequence[BeatPage]) -> Episode:
    """The episode as it is kept beside the brief."""
    return Episode(
        topic=topic,
        cold_open=[],
        answer=[SpokenLine(text=line, findings=[]) for line in answer],
        beats=[_beat(page) for page in pages],
        close=[],
    )


def _beat(page: BeatPage) -> SpokenBeat:
    return SpokenBeat(
        id=page.id,
        title=page.title,
        role=None,
        opening="",
        lines=[_line(line) for part in page.parts for line in part.told],
        charts=[part.chart.chart for part in page.parts],
    )


def _line(line: Line) -> SpokenLine:
    return SpokenLine(text=line.text, findings=list(line.about))
