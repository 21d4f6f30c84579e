"""What is made of a script or of captions: every number said, and what the facts say of it."""

from __future__ import annotations

from typing import Literal

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Verdict

Result = Literal[
    "supported",
    "rounded too far",
    "wrong unit",
    "wrong direction",
    "contradicted",
    "stale",
    "unsupported",
    "not a statistic",
    "for a person",
]
ClaimKind = Literal["cause", "no gap", "no caution", "don't say"]


class NumberChecked(Contract, kw_only=True):
    """A number as it is said, with its unit; its place in the sentence in characters.

    `fact` is what it was held against, `right` how a line says that; `corrected` is of a number
    that goes the wrong way: what it is said of, and what is right of that. `risk` is 1 (the
    highest) to 3 of what a person has to look at, 0 of what needs nobody.
    """

    said: str
    begins: int
    ends: int
    result: Result
    fact: str | None = None
    verdict: Verdict | None = None
    right: str | None = None
    corrected: str | None = None
    edition: str | None = None  # of a stale number: the edition that said it
    why: str = ""
    risk: int = 0


class ClaimChecked(Contract, kw_only=True):
    """Words that say more than a finding does, and what could be said instead."""

    said: str
    begins: int
    ends: int
    kind: ClaimKind
    finding: str | None = None
    why: str
    instead: str | None = None
    risk: int = 1


class SentenceChecked(Contract, kw_only=True):
    """A sentence with the line that it begins at, or its time in milliseconds."""

    text: str
    line: int | None = None
    start: int | None = None
    numbers: list[NumberChecked] = []
    claims: list[ClaimChecked] = []


class ScriptCheck(Contract, kw_only=True):
    """A script or captions against the facts of a topic."""

    topic: str
    file: str
    sha256: str
    captions: bool
    sentences: list[SentenceChecked]


class ScriptChecks(Contract, kw_only=True):
    """script-check.json: every script and every captions file of a topic."""

    topic: str
    checks: list[ScriptCheck]


class FileState(Contract, kw_only=True):
    """A check in short: numbers that are judged, those that are wrong, words that say too much.

    `to_check` are the places that a person has to look at.
    """

    file: str
    captions: bool
    numbers: int
    to_mend: int
    claims: int
    to_check: int


class ScriptState(Contract, kw_only=True):
    """script-state.json: what the top sheet says of it; it moves when that moves, and only then."""

    topic: str
    files: list[FileState]
