"""The script that a person keeps, beside the topic's file: where it is, and what is in it."""

from __future__ import annotations

import os
from pathlib import Path

KEPT, WRITTEN = ".script.md", ".script.json"


def kept_of(topic_file: Path | str) -> Path:
    """Where the script of a topic is kept, whether there is one or not."""
    return _beside(topic_file, KEPT)


def written_with(topic_file: Path | str) -> Path:
    """Where it stands what the facts of the kept script were when it was written."""
    return _beside(topic_file, WRITTEN)


def is_kept(path: Path) -> bool:
    """Whether anything has that name: a link that leads nowhere is told, not passed over."""
    return os.path.lexists(path)


def kept_files(topic_file: Path | str) -> list[Path]:
    """Those of the two that are there."""
    return [path for path in (kept_of(topic_file), written_with(topic_file)) if path.is_file()]


def _beside(topic_file: Path | str, ending: str) -> Path:
    path = Path(topic_file)
    return path.with_name(path.stem + ending)
