"""Finding the match files of a source: a zip, a folder, or a single file."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path

from pipeline.errors import Problem, UserError

LARGEST_MEMBER = 64 * 1024 * 1024  # bytes; a match of five days is under one megabyte


def list_members(path: Path, suffix: str) -> list[str]:
    """Names of the files ending in `suffix`, sorted; for a single file, its own name."""
    if path.is_dir():
        names = [str(p.relative_to(path)) for p in path.rglob(f"*{suffix}") if p.is_file()]
    elif path.suffix == suffix:
        names = [path.name]
    else:
        with open_zip(path) as archive:
            names = [item.filename for item in archive.infolist() if not item.is_dir()]
        names = [name for name in names if name.endswith(suffix)]
    if not names:
        raise UserError(Problem(str(path), f"no {suffix} file in it; check sources.yaml's path"))
    return sorted(names)


def open_zip(path: Path) -> zipfile.ZipFile:
    """Open an archive, or say what is wrong with it."""
    try:
        return zipfile.ZipFile(path)
    except zipfile.BadZipFile as error:
        message = f"not a readable zip archive ({error}); fetch it again"
        raise UserError(Problem(str(path), message)) from None


def read_members(path: Path, names: list[str]) -> Iterator[tuple[str, bytes | str]]:
    """Each name with its bytes, or with a sentence on why it can't be read."""
    if path.is_dir():
        for name in names:
            yield name, (path / name).read_bytes()
    elif not zipfile.is_zipfile(path):
        yield names[0], path.read_bytes()
    else:
        with open_zip(path) as archive:
            for name in names:
                yield name, _read_member(archive, name)


def _read_member(archive: zipfile.ZipFile, name: str) -> bytes | str:
    size = archive.getinfo(name).file_size
    if size > LARGEST_MEMBER:
        return f"{size:,} bytes when unpacked; the most a match file may have is {LARGEST_MEMBER:,}"
    try:
        return archive.read(name)
    except (zipfile.BadZipFile, zipfile.zlib.error, EOFError) as error:
        return f"damaged in the archive ({error}); fetch it again"
    except (RuntimeError, NotImplementedError) as error:
        return f"can't be unpacked ({error})"
