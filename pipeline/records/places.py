"""Where the record of a stage stands, and what is said when there is none."""

from __future__ import annotations

from pathlib import Path

FOLDER = ".made"  # no topic and no source can have this name


def record_of(stage: str, folder: Path | str) -> Path:
    """The record of a stage that writes into a folder: of a topic, of a source, of all data."""
    return Path(folder) / FOLDER / f"{stage}.json"


def unmade_of(record: Path) -> Path:
    """Why its stage is to run; there until it begins again."""
    return record.with_name(f"{record.stem}.unmade.json")
