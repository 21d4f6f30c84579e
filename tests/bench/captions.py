"""Two hours of made-up captions against the facts of the topic that has the most of them."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.episode import Episode
from pipeline.contracts.files import read_json
from pipeline.script.file_checked import FileChecked, file_checked
from pipeline.script.held_against import by_facts
from tests.bench.clock import median

TOPIC, RUNS = "who-paid", 3
WORDS, SECONDS, A_CUE = 20_000, 7_200, 8
# What is said between the brief's own lines; with numbers that are none of the data's.
CHAT = (
    "and i remember sitting there in twenty seventeen watching forty overs of it thinking that the "
    "ball would never reach the rope again because the grass was up to your ankles you know"
)


def figures(project: Path) -> dict[str, Any]:
    """captions_check_seconds: from the file to every number judged, with the facts in hand."""
    view = views.brief(load(project / "config", only=TOPIC), TOPIC)
    out = project / "output" / TOPIC
    known = by_facts(view, out, project / "output" / "archive")
    episode = read_json(out / "episode.json", Episode)

    def anew() -> None:
        """What was judged before is known again, and would cost nothing."""
        nonlocal known
        known = by_facts(view, out, project / "output" / "archive")

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "long.vtt"
        path.write_text(captions(list(spoken(episode)), WORDS, SECONDS), "utf-8")
        found = file_checked(path, TOPIC, known.facts, known.judge)
        taken = median(lambda: file_checked(path, TOPIC, known.facts, known.judge), anew, RUNS)
    return {"captions_check_seconds": round(taken, 2), "captions_check_numbers": numbers(found)}


def spoken(episode: Episode) -> Iterator[str]:
    """The lines of the brief, as somebody would say them, with talk between them."""
    beats = (line for beat in episode.beats for line in beat.lines)
    for line in (*episode.cold_open, *episode.answer, *beats, *episode.close):
        yield line.text
        yield CHAT


def captions(lines: list[str], words: int, seconds: int) -> str:
    """WebVTT of so many words in so much time: the lines again and again, as a program hears them.

    No capitals and no signs; three captions in four follow the one before without a pause.
    """
    every = [word.strip(".,;:?!“”‘’").lower() for line in lines for word in line.split()]
    said = (every * (words // len(every) + 1))[:words]
    cues = [" ".join(said[at : at + A_CUE]) for at in range(0, words, A_CUE)]
    length = seconds * 1000 // len(cues)
    parts = ["WEBVTT"]
    for at, text in enumerate(cues):
        begins = at * length
        ends = begins + length - (1_200 if at % 4 == 3 else 0)
        parts.append(f"{_clock(begins)} --> {_clock(ends)}\n{text}")
    return "\n\n".join(parts) + "\n"


def _clock(milliseconds: int) -> str:
    seconds, rest = divmod(milliseconds, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{rest:03}"


def numbers(found: FileChecked) -> int:
    return sum(len(sentence.numbers) for sentence in found.check.sentences)
