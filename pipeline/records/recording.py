"""The command line's part of a record: written when a stage ends well; else its mistakes are.

What a stage reads is hashed before it begins: were an input replaced meanwhile, the record would
name the old one, and the stage be run again.
"""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import islice
from pathlib import Path

from pipeline.contracts.files import as_json
from pipeline.contracts.made import Failure, Record
from pipeline.errors import UserError, told, write_atomically
from pipeline.hashes import file_hash
from pipeline.records.places import failure_of

MOST_LINES = 5  # of a failure's mistakes; the terminal has them all


def record_options(parser: argparse.ArgumentParser) -> None:
    """Options that the workflow gives; a stage that is run by hand leaves no record."""
    parser.add_argument("--record", type=Path, help="where to say what was made of what")
    parser.add_argument("--seen", default="", help="hash of code, settings and raw inputs")
    parser.add_argument("--outputs", type=Path, default=Path(), help="folder of all outputs")
    parser.add_argument("--reads", type=Path, nargs="*", default=[])
    parser.add_argument("--writes", type=Path, nargs="*", default=[])


@contextmanager
def recording(stage: str, options: argparse.Namespace) -> Iterator[None]:
    """Around a stage's work, with its options of `record_options`."""
    place: Path | None = options.record
    if place is None:
        yield
        return
    place.unlink(missing_ok=True)
    read = _hashes(options.reads, options.outputs)
    try:
        yield
    except UserError as error:
        said = list(islice(told(error), MOST_LINES))
        write_atomically(
            failure_of(place), as_json(Failure(stage=stage, seen=options.seen, problems=said))
        )
        raise
    wrote = _hashes([path for path in options.writes if path != place], options.outputs)
    record = Record(stage=stage, seen=options.seen, read=read, wrote=wrote)
    failure_of(place).unlink(missing_ok=True)
    write_atomically(place, as_json(record))


def _hashes(files: Sequence[Path], below: Path) -> dict[str, str]:
    return {
        Path(os.path.relpath(path, below)).as_posix(): file_hash(path) for path in sorted(files)
    }
