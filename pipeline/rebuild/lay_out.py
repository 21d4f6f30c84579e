"""A project's folder laid out from an edition: its configuration, sheets, match files and fonts."""

from __future__ import annotations

import shutil
from pathlib import Path, PurePosixPath

from pipeline.archive.bag import digests
from pipeline.contracts.editions import Input, Inputs
from pipeline.errors import Problem, UserError
from pipeline.verify.manifests import climbs

STRONGEST = "sha512"


def lay_out(payload: Path, inputs: Inputs, here: Path, work: Path) -> None:
    """Fill the empty folder `work` so that every path of the configuration leads to its file.

    What the edition does not hold (match files without `include_data`, fonts) is looked for under
    `here` at the same path, and taken only if its checksum is the edition's. Raises UserError with
    every file that is nowhere, or is another one.
    """
    for kept in (path for path in (payload / "config").rglob("*") if path.is_file()):
        _copy(kept, work / kept.relative_to(payload))
    problems = []
    for item in inputs.files:
        problem = _put(item, payload, here, work)
        problems += [problem] if problem else []
    if problems:
        raise UserError(problems)


def _put(item: Input, payload: Path, here: Path, work: Path) -> Problem | None:
    path = PurePosixPath(item.path)
    if climbs(item.path):
        message = "its path led out of the project then, so it can't be laid out again by itself"
        return Problem(item.path, message)
    if item.stored is not None and climbs(item.stored):
        message = f"kept at '{item.stored}', which is outside the edition; not read"
        return Problem("inputs.json", message, where=item.path)
    kept = here / path if item.stored is None else payload / item.stored
    if not kept.is_file():
        message = f"not in the edition, nor here; needed: {_named(item)}"
        return Problem(item.path, message)
    if digests(kept, (STRONGEST,))[1][STRONGEST] != item.sha512:
        return Problem(str(kept), f"another file than the edition's; needed: {_named(item)}")
    _copy(kept, work / path)
    return None


def _copy(kept: Path, target: Path) -> None:
    """The content alone: editions are write-protected, and their folders too."""
    target.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(kept, target)


def _named(item: Input) -> str:
    return f"{item.kind} of {item.bytes:,} bytes, sha256 {item.sha256}"
