"""Where editions are: numbered folders, made aside and renamed into place, never written again.

One process at a time archives a topic: it holds an exclusive lock (flock) on the topic's folder of
editions from before it looks at the newest one until its own is in place. A second one waits, then
sees that edition, and says that nothing has changed or takes the next number. The lock dies with
its process, so nothing is left to clear by hand. An edition is filled in a folder with a dot before
its name and gets its number by one rename on the same file system: it is there whole or not at all.
"""

from __future__ import annotations

import errno
import fcntl
import os
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from pipeline.contracts.editions import Edition
from pipeline.contracts.files import read_json
from pipeline.contracts.upgrades.editions import edition_of_format_0

FULL = (errno.ENOSPC, errno.EDQUOT)
STAGING = ".new."
_NUMBER = re.compile(r"[1-9][0-9]*")


def editions(folder: Path) -> list[int]:
    """Numbers of a topic's editions, in order; none when nothing is archived."""
    if not folder.is_dir():
        return []
    return sorted(int(part.name) for part in folder.iterdir() if _NUMBER.fullmatch(part.name))


def read_edition(folder: Path) -> Edition:
    """An edition's edition.json. Raises UserError when it can't be read."""
    mend = (
        "so it is unknown what that edition holds; run python -m pipeline "
        f"verify {folder}, and put back a whole copy of it"
    )
    return read_json(folder / "data" / "edition.json", Edition, mend, edition_of_format_0)


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Hold the topic's folder of editions (made when missing); waits for who holds it."""
    folder.mkdir(parents=True, exist_ok=True)
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


@contextmanager
def staging(folder: Path) -> Iterator[Path]:
    """A folder beside the editions, removed at the end unless it got its place (`take`).

    What a killed run left is removed first: under the lock it can't be in use. A full disk is named
    by the folder.
    """
    for left in folder.glob(f"{STAGING}*"):
        _remove(left)
    made = folder / f"{STAGING}{os.getpid()}"
    made.mkdir()
    try:
        yield made
    except OSError as error:
        if error.filename is None or error.errno in FULL:  # a copy names what it read, not wrote
            error.filename = str(folder)
        raise
    finally:
        if made.exists():
            _remove(made)


def take(made: Path, place: Path) -> Path:
    """Write-protect what was made and give it its place; nothing can fail after the rename."""
    for path in (*made.rglob("*"), made):
        path.chmod(path.stat().st_mode & ~0o222)
    return made.rename(place)


def _remove(folder: Path) -> None:
    """A folder with all in it, protected or not; a link is removed, not followed."""
    if folder.is_symlink() or not folder.is_dir():
        folder.unlink()
        return
    for top, _, _ in os.walk(folder):
        os.chmod(top, 0o700)
    shutil.rmtree(folder)
