"""An edition as a BagIt 1.0 bag (RFC 8493), written with the library of the format's authors."""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import bagit

from pipeline.contracts.editions import Edition
from pipeline.errors import Problem, UserError, write_atomically

ALGORITHMS = ("sha256", "sha512")
DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
BLOCK = 1 << 20  # bytes


def seal(payload: Path, edition: Edition) -> int:
    """Turn the folder into a bag, its files moved into data/; returns the number of its files."""
    with quiet():
        try:
            bagit.make_bag(str(payload), _info(edition), checksums=list(ALGORITHMS))
        except bagit.BagError as error:
            raise UserError(Problem(str(payload), f"can't be made a bag: {error}")) from None
    write_atomically(payload / "bagit.txt", DECLARED)  # the library still writes version 0.97
    tags = sorted(p for p in payload.iterdir() if p.is_file() and "tagmanifest" not in p.name)
    sums = {tag.name: digests(tag)[1] for tag in tags}
    for algorithm in ALGORITHMS:  # anew: of the new bagit.txt, and in the same order everywhere
        told = listing({name: found[algorithm] for name, found in sums.items()})
        write_atomically(payload / f"tagmanifest-{algorithm}.txt", told)
    return sum(path.is_file() for path in payload.rglob("*"))


def listing(sums: dict[str, str]) -> str:
    """A manifest: a checksum and a name a line."""
    return "".join(f"{told}  {name}\n" for name, told in sums.items())


def _info(edition: Edition) -> dict[str, str]:
    """bag-info.txt; the library adds the count and size of the payload."""
    own = edition.software["good-length"] or "of unknown version"
    return {
        "Source-Organization": edition.publisher,
        "External-Description": edition.title,
        "External-Identifier": edition.name,
        "Bagging-Date": edition.date.isoformat(),
        "Bag-Software-Agent": f"Good Length {own}, bagit {edition.software['bagit']}",
    }


def digests(path: Path, algorithms: tuple[str, ...] = ALGORITHMS) -> tuple[int, dict[str, str]]:
    """Size in bytes and checksums of a file, by algorithm, read once."""
    sums = {name: hashlib.new(name) for name in algorithms}
    size = 0
    with Path(path).open("rb") as file:
        while block := file.read(BLOCK):
            size += len(block)
            for each in sums.values():
                each.update(block)
    return size, {name: each.hexdigest() for name, each in sums.items()}


@contextmanager
def quiet() -> Iterator[None]:
    """The library logs errors that it raises too, with tracebacks; whoever calls says them."""
    logger = logging.getLogger(bagit.LOGGER.name)
    before = logger.disabled
    logger.disabled = True
    try:
        yield
    finally:
        logger.disabled = before
