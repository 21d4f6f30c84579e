"""sha256 of content: files, folders, plain data. Times of files lie; content does not."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path
from typing import Any


def file_hash(path: Path | str) -> str:
    """sha256 of a file."""
    with Path(path).open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def content_hash(path: Path | str | None) -> str:
    """sha256 of a file, or of a folder's names and contents; 'none' when nothing is there.

    What is no file that can be read (a pipe, a device, a link that leads nowhere) is never opened;
    its name counts. A file without the right to read it is 'unread', and refused by who reads it.
    """
    if path is None or not os.path.exists(path):  # of Path it raises in a locked folder
        return "none"
    path = Path(path)
    if path.is_file():
        return _hash_if_file(path)
    digest = hashlib.sha256()
    for inner in sorted(path.rglob("*")):
        if os.path.islink(inner) or not os.path.isdir(inner):
            name = os.fsencode(inner.relative_to(path)).decode("utf-8", "backslashreplace")
            digest.update(f"{name} {_hash_if_file(inner)}\n".encode())
    return digest.hexdigest()


def _hash_if_file(path: Path) -> str:
    try:
        return file_hash(path) if path.is_file() else "none"
    except OSError:
        return "unread"


def value_hash(value: Any) -> str:
    """sha256 of plain data, whatever the order of its keys."""
    return hashlib.sha256(json.dumps(value, sort_keys=True, default=_plain).encode()).hexdigest()


def _plain(value: Any) -> Any:
    """A model as its data; anything else that JSON does not know as text."""
    dumped = getattr(value, "model_dump", None)
    return dumped(mode="json") if dumped else str(value)
