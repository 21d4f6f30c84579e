"""The manifests of a bag: which files it should have, with their checksums."""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from pipeline.archive.bag import ALGORITHMS

KINDS = ("manifest", "tagmanifest")
_LINE = re.compile(r"(\S+)[ \t]+\*?(.*\S)\s*")
_LED_OUT = "leads out of the edition's folder; not read"


@dataclass
class Listed:
    """What the manifests say: name -> algorithm -> checksum; what is wrong with them, by file."""

    sums: dict[str, dict[str, str]] = field(default_factory=dict)
    wrong: list[tuple[str, str]] = field(default_factory=list)


def always() -> list[str]:
    """Tag files that every edition has."""
    names = [f"{kind}-{algorithm}.txt" for kind in KINDS for algorithm in ALGORITHMS]
    return ["bagit.txt", "bag-info.txt", *names]


def same_name(name: str) -> str:
    """A name as it is compared: file systems write accents in one of two ways."""
    return unicodedata.normalize("NFC", name)


def listed(folder: Path, there: set[str]) -> Listed:
    """Read every manifest that is there; `there` are the regular files of the folder."""
    found = Listed()
    for kind in KINDS:
        by_algorithm = {
            algorithm: _one(folder, f"{kind}-{algorithm}.txt", algorithm, found)
            for algorithm in ALGORITHMS
            if f"{kind}-{algorithm}.txt" in there
        }
        every = set().union(*by_algorithm.values())
        for algorithm, names in by_algorithm.items():
            lacking = sorted(every - names)
            if lacking:
                said = f"lacks {len(lacking)} that another manifest has, such as '{lacking[0]}'"
                found.wrong.append((f"{kind}-{algorithm}.txt", said))
    return found


def _one(folder: Path, file: str, algorithm: str, found: Listed) -> set[str]:
    """The names in one manifest, their checksums put to what was found."""
    names: set[str] = set()
    for number, line in _lines(folder / file, file, found):
        parts = _LINE.fullmatch(line)
        if not parts:
            found.wrong.append((f"{file}:{number}", "not a checksum and a path"))
            continue
        name = parts[2]
        if climbs(name):
            found.wrong.append((name, f"in {file}, line {number}: {_LED_OUT}"))
            continue
        name = same_name(posixpath.normpath(name))
        if name in names:
            found.wrong.append((f"{file}:{number}", f"'{name}' stands in it twice"))
        names.add(name)
        found.sums.setdefault(name, {})[algorithm] = parts[1].lower()
    return names


def _lines(path: Path, file: str, found: Listed) -> Iterator[tuple[int, str]]:
    try:
        text = path.read_text("utf-8")
    except UnicodeDecodeError as error:
        found.wrong.append((file, f"not UTF-8 text (byte {error.start})"))
        return
    except OSError as error:
        found.wrong.append((file, f"can't be read ({error.strerror})"))
        return
    yield from ((at, line) for at, line in enumerate(text.split("\n"), 1) if line.strip())


def climbs(name: str) -> bool:
    """Whether a path may lead out of the folder it is relative to, on any system."""
    parts = re.split(r"[\\/]", name)
    return parts[0] == "" or parts[0][:1] == "~" or parts[0][1:2] == ":" or ".." in parts
