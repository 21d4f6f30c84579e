"""The command line's part of a record: written when a stage ends well; else its mistakes are.

What a stage reads is hashed before it begins: were an input replaced meanwhile, the record would
name the old one, and the stage be run again.
"""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from itertools import islice
from pathlib import Path

from pipeline.contracts.files import as_json
from pipeline.contracts.made import Record, Unmade
from pipeline.errors import Problem, UserError, told, write_atomically
from pipeline.hashes import file_hash, value_hash
from pipeline.records.places import unmade_of

MOST_LINES = 5  # of a failure's mistakes; the terminal has them all


def record_options(parser: argparse.ArgumentParser) -> None:
    """Options that the workflow gives; a stage that is run by hand leaves no record."""
    parser.add_argument("--record", type=Path, help="where to say what was made of what")
    parser.add_argument("--seen", default="", help="hash of code, settings and raw inputs")
    parser.add_argument("--view", default="", help="hash of the settings alone")
    parser.add_argument("--outputs", type=Path, default=Path(), help="folder of all outputs")


class Recording:
    """What a stage's record will say, filled as soon as its settings are read."""

    def __init__(self, stage: str, options: argparse.Namespace) -> None:
        self.stage, self.seen, self.view = stage, options.seen, options.view
        self.place: Path | None = options.record
        self.below: Path = options.outputs
        self._read: dict[str, str] = {}
        self._writes: list[str] = []

    def begins(
        self, view: object, reads: Sequence[str], writes: Sequence[str], *settings: str
    ) -> None:
        """The stage is about to work, on these files.

        Raises UserError, naming the files of its `settings`, when they are not what they were when
        it was sent off.
        """
        if self.place is None:
            return
        if self.view and value_hash(view) != self.view:
            file, *others = settings
            either = f"this file or {' or '.join(others)} " if others else ""
            message = f"{either}was changed while the build was at work; nothing was made"
            raise UserError(Problem(file, f"{message}: build again"))
        self._read, self._writes = self._hashes(reads), list(writes)

    def ended(self) -> None:
        if self.place:
            wrote = self._hashes(self._writes)
            record = Record(stage=self.stage, seen=self.seen, read=self._read, wrote=wrote)
            write_atomically(self.place, as_json(record))

    def failed(self, error: UserError) -> None:
        if self.place:
            said = list(islice(told(error), MOST_LINES))
            left_unmade(self.place, self.stage, self.seen, True, said)

    def _hashes(self, files: Sequence[str]) -> dict[str, str]:
        below = {Path(os.path.relpath(path, self.below)).as_posix(): path for path in sorted(files)}
        return {name: file_hash(path) for name, path in below.items()}


def left_unmade(record: Path, stage: str, seen: str, failed: bool, why: list[str]) -> None:
    """Say beside a record why there is none; where nothing can be written nothing is said."""
    with suppress(OSError):
        said = Unmade(stage=stage, seen=seen, failed=failed, why=why)
        write_atomically(unmade_of(record), as_json(said))


@contextmanager
def recording(stage: str, options: argparse.Namespace) -> Iterator[Recording]:
    """Around a stage's work, with its options of `record_options`."""
    made = Recording(stage, options)
    if made.place:
        made.place.unlink(missing_ok=True)
        unmade_of(made.place).unlink(missing_ok=True)
    try:
        yield made
    except UserError as error:
        made.failed(error)
        raise
    made.ended()
