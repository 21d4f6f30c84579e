"""Folders to work in beside what is made: gone afterwards, whatever becomes of the work."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from pipeline.errors import alive


@contextmanager
def scratch(beside: Path) -> Iterator[Path]:
    """An empty folder named after the one it stands beside; what a killed run left is removed."""
    beside.parent.mkdir(parents=True, exist_ok=True)
    for left in beside.parent.glob(f".{beside.name}.*"):
        if not alive(left.suffix[1:]):
            shutil.rmtree(left, ignore_errors=True)
    folder = beside.with_name(f".{beside.name}.{os.getpid()}")
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def put_in_place(made: Path, target: Path) -> None:
    """Give a folder that is made its name, at once; one that has the name goes before it."""
    if target.is_dir():
        shutil.rmtree(target)
    os.replace(made, target)
