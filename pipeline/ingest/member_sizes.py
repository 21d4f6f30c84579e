"""How large a source's files are, before they are read."""

from __future__ import annotations

import zipfile
from pathlib import Path

from pipeline.ingest.members import open_zip


def sizes_of(path: Path, names: list[str]) -> dict[str, int]:
    """Bytes of some members when they are unpacked; 0 of one that can't be asked."""
    if path.is_dir():
        return {name: _size(path / name) for name in names}
    if path.suffix.lower() != ".zip" and not zipfile.is_zipfile(path):
        return dict.fromkeys(names, _size(path))
    with open_zip(path) as archive:
        wanted = set(names)
        found = {item.filename: item.file_size for item in archive.infolist()}
        return {name: found.get(name, 0) for name in wanted}


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return 0
