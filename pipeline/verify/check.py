"""One archived edition, read and compared. Nothing is written, and no link is followed."""

from __future__ import annotations

import os
import stat
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

import bagit

from pipeline.archive.bag import DECLARED, digests, quiet
from pipeline.verify.manifests import always, listed, same_name

ANOTHER_KIND = "not what every edition declares: BagIt-Version 1.0, tag files in UTF-8"
Wrong = tuple[str, str]  # a path inside the edition, and what is wrong there


class Checked(NamedTuple):
    """How many files were found, which edition it says it is, and all that is wrong with it."""

    files: int
    named: str
    wrong: list[Wrong]


@dataclass
class Found:
    """Regular files by the name they are compared by; what is no regular file."""

    files: dict[str, Path] = field(default_factory=dict)
    wrong: list[Wrong] = field(default_factory=list)


def check(folder: Path) -> Checked:
    """Every damaged, missing and extra file of a bag, tag files too, and every path that climbs."""
    found = _walk(folder)
    told = listed(folder, set(found.files))
    wrong = [*found.wrong, *told.wrong]
    for name in sorted({*told.sums, *always()} - set(found.files)):
        wrong.append((name, "missing"))
    for name, path in sorted(found.files.items()):
        if name in told.sums:
            wrong += _compared(name, path, told.sums[name])
        elif name not in always():
            wrong.append((name, "extra"))
    named, more = ("", []) if wrong else _as_the_library_sees_it(folder)
    return Checked(len(found.files), named, wrong + more)


def _walk(folder: Path) -> Found:
    found = Found()
    waiting = [folder]
    while waiting:
        top = waiting.pop()
        try:
            with os.scandir(top) as entries:
                inner = sorted(entry.name for entry in entries)
            modes = {top / name: (top / name).lstat().st_mode for name in inner}
        except OSError as error:
            found.wrong.append((_inside(folder, top), f"can't be read ({error.strerror})"))
            continue
        for path, mode in modes.items():
            _sort(folder, path, mode, found)
        waiting += [path for path, mode in modes.items() if stat.S_ISDIR(mode)]
    return found


def _sort(folder: Path, path: Path, mode: int, found: Found) -> None:
    """Put what stands at a path where it belongs: a file to be read, or something else."""
    inside = _inside(folder, path)
    name = same_name(inside)
    if stat.S_ISLNK(mode):
        found.wrong.append((inside, "a link, not a file; not read"))
    elif not stat.S_ISREG(mode) and not stat.S_ISDIR(mode):
        found.wrong.append((inside, "not a regular file; not read"))
    elif stat.S_ISREG(mode) and name in found.files:
        found.wrong.append((inside, "extra: another file has this name, its accents put otherwise"))
    elif stat.S_ISREG(mode):
        found.files[name] = path


def _inside(folder: Path, path: Path | str) -> str:
    return Path(path).relative_to(folder).as_posix()


def _compared(name: str, path: Path, sums: dict[str, str]) -> list[Wrong]:
    """What differs; the strongest checksum is named."""
    try:
        _, now = digests(path, tuple(sums))
    except OSError as error:
        return [(name, f"can't be read ({error.strerror})")]
    differ = [algorithm for algorithm, told in sums.items() if told != now[algorithm]]
    return [(name, f"damaged ({differ[-1]} differs)")] if differ else []


def _as_the_library_sees_it(folder: Path) -> tuple[str, list[Wrong]]:
    """('edition 2 of long-grass', what is wrong beyond the files' content).

    The library takes the encoding of tag files from the bag, whatever it is: so it is asked last.
    """
    if (folder / "bagit.txt").read_bytes() != DECLARED.encode():
        return "", [("bagit.txt", ANOTHER_KIND)]
    with quiet():
        try:
            bag = bagit.Bag(str(folder))
            bag.validate(completeness_only=True)
        except (bagit.BagError, OSError, ValueError) as error:
            return "", [("bagit.txt", f"not a valid bag: {error}")]
        except RecursionError:
            return "", [("data", "folders within one another, deeper than any edition's")]
    topic, _, number = str(bag.info.get("External-Identifier", "")).rpartition("/")
    return (f"edition {number} of {topic}" if topic else ""), []
