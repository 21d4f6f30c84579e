"""Where the record of a stage stands, and what it says when it failed."""

from __future__ import annotations

from pathlib import Path

FOLDER = ".made"  # no topic and no source can have this name


def record_of(stage: str, folder: Path | str) -> Path:
    """The record of a stage that writes into a folder: of a topic, of a source, of all data."""
    return Path(folder) / FOLDER / f"{stage}.json"


def failure_of(record: Path) -> Path:
    """What its stage said when it failed last; there until it ends well."""
    return record.with_name(f"{record.stem}.failed.json")
