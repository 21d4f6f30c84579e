"""sha256 of content: files, folders, plain data. Times of files lie; content does not."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any


def file_hash(path: Path | str) -> str:
    """sha256 of a file."""
    with Path(path).open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def content_hash(path: Path | str | None) -> str:
    """sha256 of a file, or of a folder's names and contents; 'none' when nothing is there."""
    if path is None or not Path(path).exists():
        return "none"
    path = Path(path)
    if path.is_file():
        return file_hash(path)
    digest = hashlib.sha256()
    for inner in sorted(p for p in path.rglob("*") if p.is_file()):
        digest.update(f"{inner.relative_to(path)} {file_hash(inner)}\n".encode())
    return digest.hexdigest()


def value_hash(value: Any) -> str:
    """sha256 of plain data, whatever the order of its keys."""
    return hashlib.sha256(json.dumps(value, sort_keys=True, default=_plain).encode()).hexdigest()


def _plain(value: Any) -> Any:
    """A model as its data; anything else that JSON does not know as text."""
    dumped = getattr(value, "model_dump", None)
    return dumped(mode="json") if dumped else str(value)
