"""The manifests of a bag: which files it should have, with their checksums."""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from pipeline.archive.bag import ALGORITHMS, listing

KINDS = ("manifest", "tagmanifest")
MOST = 64 << 20  # bytes of a tag file; an edition's are a thousand times smaller
_LED_OUT = "leads out of the edition's folder; not read"
_REWRITTEN = (
    "not as an edition is written (its line ends, the order of its lines, the case of a checksum, "
    "or which files it lists)"
)


@dataclass
class Listed:
    """What the manifests say: name -> algorithm -> checksum; what is wrong with them, by file."""

    sums: dict[str, dict[str, str]] = field(default_factory=dict)
    wrong: list[tuple[str, str]] = field(default_factory=list)


def always() -> list[str]:
    """Tag files that every edition has."""
    names = [f"{kind}-{algorithm}.txt" for kind in KINDS for algorithm in ALGORITHMS]
    return ["bagit.txt", "bag-info.txt", *names]


def listed_tags() -> list[str]:
    """Tag files that the tag manifests list: all but themselves, which nothing lists."""
    return sorted(name for name in always() if not name.startswith("tagmanifest"))


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
    content = _bytes(folder / file, file, found)
    if content is None:
        return set()
    before = len(found.wrong)
    sums = _sums(content, file, found)
    for name, told in sums.items():
        found.sums.setdefault(name, {})[algorithm] = told
    if file.startswith("tagmanifest") and len(found.wrong) == before:
        wanted = listing({name: sums.get(name, "") for name in listed_tags()})
        if content != wanted.encode():
            found.wrong.append((file, _REWRITTEN))
    return set(sums)


def _sums(content: bytes, file: str, found: Listed) -> dict[str, str]:
    """Checksums by name, as one manifest has them."""
    sums: dict[str, str] = {}
    for number, line in _lines(content, file, found):
        told, _, rest = line.strip().replace("\t", " ").partition(" ")
        name = rest.strip().removeprefix("*")
        if not name:
            found.wrong.append((f"{file}:{number}", "not a checksum and a path"))
            continue
        if climbs(name):
            found.wrong.append((name, f"in {file}, line {number}: {_LED_OUT}"))
            continue
        name = same_name(posixpath.normpath(name))
        if name in sums:
            found.wrong.append((f"{file}:{number}", f"'{name}' stands in it twice"))
        sums[name] = told.lower()
    return sums


def _bytes(path: Path, file: str, found: Listed) -> bytes | None:
    try:
        with path.open("rb") as opened:
            content = opened.read(MOST + 1)
    except OSError as error:
        found.wrong.append((file, f"can't be read ({error.strerror})"))
        return None
    if len(content) > MOST:
        found.wrong.append((file, f"more than {MOST >> 20} MB, which no edition's is; not read"))
        return None
    return content


def _lines(content: bytes, file: str, found: Listed) -> Iterator[tuple[int, str]]:
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        found.wrong.append((file, f"not UTF-8 text (byte {error.start})"))
        return
    yield from ((at, line) for at, line in enumerate(text.split("\n"), 1) if line.strip())


def climbs(name: str) -> bool:
    """Whether a path may lead out of the folder it is relative to, on any system."""
    parts = re.split(r"[\\/]", name)
    rooted = parts[0] == "" or parts[0][:1] == "~" or parts[0][1:2] == ":"
    return rooted or ".." in parts or "\0" in name
