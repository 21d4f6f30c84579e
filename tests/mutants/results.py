"""The files beside this module: what the campaign found, and why what survived may live."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).parent
RESULTS, EXPLAINED = HERE / "results.csv", HERE / "explained.csv"


class Result(NamedTuple):
    """A module's mutants; `code` is the module's text they were made of."""

    module: str
    mutants: int
    killed: int
    survivors: tuple[str, ...]
    code: str


def code_of(text: str) -> str:
    """The first digits of the sha256 of a module's text."""
    return sha256(text.encode()).hexdigest()[:12]


def read(path: Path = RESULTS) -> list[Result]:
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as file:
        return [
            Result(
                row["module"],
                int(row["mutants"]),
                int(row["killed"]),
                tuple(filter(None, row["survivors"].split(";"))),
                row["code"],
            )
            for row in csv.DictReader(file)
        ]


def write(results: Iterable[Result], path: Path = RESULTS) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(Result._fields)
        for one in sorted(results):
            writer.writerow([*one[:3], ";".join(one.survivors), one.code])


def explained(path: Path = EXPLAINED) -> dict[str, str]:
    """Why, by the mutant's name."""
    if not path.exists():
        return {}
    with path.open(encoding="utf-8", newline="") as file:
        return {row["mutant"]: row["why"].strip() for row in csv.DictReader(file)}


def to_try(codes: Mapping[str, str], known: Iterable[Result], why: Mapping[str, str]) -> list[str]:
    """Of modules with their codes, those to try: whatever has another code than when it was tried,
    and whatever has a survivor that is not explained, since a test may be there for it by now.
    """
    done = {one.module: one for one in known}
    return [
        module
        for module, code in codes.items()
        if module not in done or done[module].code != code or unexplained([done[module]], why)
    ]


def unexplained(known: Iterable[Result], why: Mapping[str, str]) -> list[str]:
    """Survivors that want a test, or a line."""
    return [name for one in known for name in one.survivors if not why.get(name)]


def outlived(known: Iterable[Result], why: Mapping[str, str]) -> list[str]:
    """Explained mutants that are no survivors any more: killed, of another code, or gone."""
    survivors = {name for one in known for name in one.survivors}
    return [name for name in why if name not in survivors]
