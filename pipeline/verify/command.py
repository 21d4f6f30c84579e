"""python -m pipeline verify PATH: is an archived edition whole, or a topic's, or all of them.

PATH is an edition's folder wherever it was copied, or a folder of a topic's editions, or the folder
of all topics. Nothing in it is changed.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.editions.store import editions
from pipeline.errors import Problem, UserError
from pipeline.terminal import say
from pipeline.verify.check import check

MARKS = ("bagit.txt", "manifest-sha512.txt", "manifest-sha256.txt", "data/edition.json")
EXPECTED = (
    "no archived edition here; expected an edition's folder (with bagit.txt in it), a topic's "
    "folder of editions (1, 2, ...), or the folder of all topics"
)


def verify(words: list[str]) -> None:
    """Print a line for each whole edition. Raises UserError with all that is wrong with others."""
    parser = argparse.ArgumentParser(prog="python -m pipeline verify", description=__doc__)
    parser.add_argument("path", type=Path, help="an edition, a topic's editions, or the archive")
    path = parser.parse_args(words).path
    problems = []
    for folder in editions_in(path):
        checked = check(folder)
        if not checked.wrong:
            named = f", {checked.named}" if checked.named else ""
            say(f"{folder}: whole: {checked.files} files{named}")
        place = "" if folder == path else f"{folder.relative_to(path).as_posix()}/"
        problems += [Problem(f"{place}{name}", said) for name, said in checked.wrong]
    if problems:
        raise UserError(problems)


def editions_in(path: Path) -> list[Path]:
    """Folders of the editions at a path. Raises UserError when there are none."""
    if any((path / mark).is_file() for mark in MARKS):
        return [path]
    topics = [path] if editions(path) else sorted(path.iterdir()) if path.is_dir() else []
    found = [topic / str(number) for topic in topics for number in editions(topic)]
    if not found:
        raise UserError(Problem(str(path), EXPECTED))
    return found
