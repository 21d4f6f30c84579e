"""The scripts and captions that a person keeps beside a topic's file: where they are."""

from __future__ import annotations

import os
from pathlib import Path

KEPT, WRITTEN = ".script.md", ".script.json"
PLAIN = ".script.txt"  # a script in plain text, of which nothing is filled in
CAPTIONS = (".vtt", ".srt")  # of the recording
SAID = (KEPT, PLAIN, *CAPTIONS)  # what is checked against the facts, in this order


def kept_of(topic_file: Path | str) -> Path:
    """Where the script of a topic is kept, whether there is one or not."""
    return _beside(topic_file, KEPT)


def written_with(topic_file: Path | str) -> Path:
    """Where it stands what the facts of the kept script were when it was written."""
    return _beside(topic_file, WRITTEN)


def is_kept(path: Path) -> bool:
    """Whether anything has that name: a link that leads nowhere is told, not passed over."""
    return os.path.lexists(path)


def said_files(topic_file: Path | str) -> list[Path]:
    """Scripts and captions of a topic that are there, which are checked against its facts."""
    places = (_beside(topic_file, ending) for ending in SAID)
    return [path for path in places if is_kept(path)]


def kept_files(topic_file: Path | str) -> list[Path]:
    """All that an edition keeps of them, and what the facts were when the script was written."""
    written = written_with(topic_file)
    return [*said_files(topic_file), *([written] if written.is_file() else [])]


def beside(topic_file: Path | str) -> list[Path]:
    """Every name that may stand beside a topic's file, whether there is such a file or not."""
    return [_beside(topic_file, ending) for ending in (*SAID, WRITTEN)]


def _beside(topic_file: Path | str, ending: str) -> Path:
    path = Path(topic_file)
    return path.with_name(path.stem + ending)
