"""The raw inputs of an edition: what they were, to the byte, and themselves where that is allowed.

Sheets of the configuration are always kept. Match files are kept with `archive: {include_data:
true}` in project.yaml only, since their licence must allow it; their checksums are kept anyway.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from pipeline.archive.bag import digests
from pipeline.config.load import Config
from pipeline.contracts.editions import Input, InputKind, Inputs

SHEETS = ("players", "grounds", "people", "corrections")
# What a path inside a bag can't have on every system, or would have to be written otherwise.
_ODD = re.compile(r"[^\w.,()&+=@ /\-]")
_LED_OUT = "its path leads out of the project, or has characters that don't travel; kept as named"


class Raw(NamedTuple):
    """One raw file: what it is, whose, its path as in the configuration, where it is kept."""

    kind: InputKind
    of: str
    path: str
    stored: str | None
    note: str | None = None


def keep_inputs(config: Config, payload: Path) -> Inputs:
    """Copy what is kept into the payload; all inputs with their sizes in bytes and checksums.

    Of every source, not of the topic's alone: a match that two of them have is counted once.
    """
    keep = config.project.archive.include_data
    files = []
    for item in (*_of_sources(config, keep), *_of_sheets(config), *_of_theme(config)):
        read = Path(item.path)
        if item.stored:
            read = payload / item.stored
            read.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(item.path, read)
        files.append(_listed(item, *digests(read)))
    return Inputs(match_files_included=keep, files=files)


def _listed(item: Raw, size: int, sums: dict[str, str]) -> Input:
    return Input(
        kind=item.kind,
        of=item.of,
        path=item.path,
        stored=item.stored,
        note=item.note,
        bytes=size,
        sha256=sums["sha256"],
        sha512=sums["sha512"],
    )


def _of_sources(config: Config, keep: bool) -> Iterator[Raw]:
    taken: set[str] = set()
    for source, declared in config.sources.items():
        for path in _files(declared.path):
            stored, note = _place(path, source, taken) if keep else (None, None)
            yield Raw("match file", source, path, stored, note)


def _files(path: str) -> list[str]:
    """The file, or every file in the folder, by name."""
    if not Path(path).is_dir():
        return [path]
    return sorted(found.as_posix() for found in Path(path).rglob("*") if found.is_file())


def _place(path: str, source: str, taken: set[str]) -> tuple[str, str | None]:
    """inputs/<path as in the configuration>, or inputs/<source>/<name> for one that climbs."""
    there = PurePosixPath(path)
    note = None
    stored = f"inputs/{there}"
    if there.is_absolute() or ".." in there.parts or _ODD.search(path) or stored in taken:
        note = _LED_OUT
        name = _ODD.sub("_", there.name)
        numbers = range(2, len(taken) + 3)
        names = [name, *(f"{number}-{name}" for number in numbers)]
        stored = next(s for s in (f"inputs/{source}/{n}" for n in names) if s not in taken)
    taken.add(stored)
    return stored, note


def _of_sheets(config: Config) -> Iterator[Raw]:
    for sheet in SHEETS:
        path = getattr(config.project, sheet)
        if path:
            yield Raw("sheet", sheet, path, f"config/sheets/{sheet}.csv")


def _of_theme(config: Config) -> Iterator[Raw]:
    """The logo is kept; fonts, whose licence may not allow it, by their checksums only."""
    if config.theme is None:
        return
    for weight, path in config.theme.fonts.model_dump().items():
        yield Raw("font", weight, path, None)
    if config.theme.logo:
        yield Raw("logo", "theme", config.theme.logo, "config/sheets/logo.png")
