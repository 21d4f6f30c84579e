"""A configuration file's text: a plain file, not too large, in UTF-8, with nothing unseen in it."""

from __future__ import annotations

import re
import stat
from pathlib import Path

from pipeline.errors import Problem, UserError
from pipeline.terminal import HARMFUL, shown

LARGEST = 1_000_000  # bytes
_BREAK = re.compile("\r\n?|\n")


def text_of(path: Path) -> str:
    """Read one file. Raises UserError saying what is wrong with it, and where."""
    file = str(path)
    data = _bytes_of(path, file)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8", "replace")
        message = f"not UTF-8 text (byte {error.start}); save it as UTF-8"
        raise UserError(Problem(file, message, *_place(before))) from None
    if found := HARMFUL.search(text):
        raise UserError(Problem(file, unseen(found[0]), *_place(text[: found.start()])))
    return text


def unseen(character: str) -> str:
    """What to say of such a character."""
    return f"a character that can't be seen ({shown(character)}); delete it"


def _bytes_of(path: Path, file: str) -> bytes:
    """The content of a regular file; a pipe would be waited for without end."""
    try:
        mode = path.stat().st_mode
        if not stat.S_ISREG(mode):
            what = "a folder" if stat.S_ISDIR(mode) else "something else"
            raise UserError(Problem(file, f"expected a file, found {what}; put a YAML file there"))
        with path.open("rb") as opened:
            data = opened.read(LARGEST + 1)
    except FileNotFoundError:
        raise UserError(Problem(file, "no such file; it is part of every project")) from None
    except (OSError, ValueError) as error:
        said = error.strerror if isinstance(error, OSError) else str(error)
        message = f"can't be read ({said}); check its name and rights"
        raise UserError(Problem(file, message)) from None
    if len(data) > LARGEST:
        message = f"over {LARGEST:,} bytes, the most that a configuration file may have; shorten it"
        raise UserError(Problem(file, message, 1, 1))
    return data


def _place(before: str) -> tuple[int, int]:
    """Line and column of what comes next."""
    lines = _BREAK.split(before)
    return len(lines), len(lines[-1]) + 1
