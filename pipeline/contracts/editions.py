"""What an edition holds beside the brief: what it was made of and with, and what changed since."""

from __future__ import annotations

from datetime import date
from typing import Any, Literal

import msgspec

from pipeline.contracts.base import Contract
from pipeline.contracts.codes import Verdict
from pipeline.contracts.facts import EarlierFacts, Fact
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Fix

Settings = dict[str, dict[str, Any]]  # what each stage saw of the configuration, as plain data
InputKind = Literal["match file", "sheet", "font", "logo"]
# Of a fact: that only one of the two has it, or what of it the two say otherwise.
Moved = Literal["new", "gone", "value", "display", "spoken", "verdict", "interval"]
Drawn = Literal["new", "gone", "numbers", "drawing"]


class Commit(Contract, kw_only=True):
    """The commit of the code, and whether the code had been changed since."""

    id: str
    with_changes_that_are_not_committed: bool


class Credit(Contract, kw_only=True):
    """Whose data: one source, as it wants to be named."""

    id: str
    title: str
    publisher: str
    licence: str
    url: str | None
    retrieved: date
    credit: str
    notice: str | None


class Edition(Contract, kw_only=True):
    """edition.json. `content` is a checksum of what it says; versions are None where unknown."""

    topic: str
    title: str
    question: str
    publisher: str
    edition: int
    date: date
    fingerprint: str
    content: str
    code: str
    commit: Commit | None
    software: dict[str, str | None]
    rebuild: str
    sources: list[Credit]

    @property
    def name(self) -> str:
        """As the bag is identified, and as a topic cites it: 'long-grass/2'."""
        return f"{self.topic}/{self.edition}"


class Input(Contract, kw_only=True):
    """One raw file: what it is, whose, its path as in the configuration, where it is kept."""

    kind: InputKind
    of: str
    path: str
    stored: str | None
    note: str | None
    bytes: int
    sha256: str
    sha512: str


class Inputs(Contract, kw_only=True):
    """inputs.json: every raw file, whether it is kept or only its checksums."""

    match_files_included: bool
    files: list[Input]


class Merged(Contract, kw_only=True):
    """config/merged.json: what each stage saw of the configuration; of ingest, by source."""

    ingest: dict[str, Any]
    clean: dict[str, Any]
    metrics: dict[str, Any]
    significance: dict[str, Any]
    charts: dict[str, Any]
    brief: dict[str, Any]


class Said(Contract, kw_only=True):
    """What a brief says of one number.

    `interval` is shown and of the confidence `level`; both are none where there is none, or where
    the comparison was kept by a version that did not note them.
    """

    value: float | int | None
    unit: str
    display: str
    spoken: str
    verdict: Verdict | None
    interval: str | None = None
    level: float | None = None


class FactMoved(Contract, kw_only=True):
    """A number that is new, gone, or said otherwise; `old` or `new` is none where it is not."""

    id: str
    headline: bool
    what: list[Moved]
    old: Said | None
    new: Said | None


class LinesMoved(Contract, kw_only=True):
    """The lines of a beat that only one side says."""

    beat: str
    gone: list[str]
    new: list[str]


class ChartMoved(Contract, kw_only=True):
    chart: str
    what: list[Drawn]


class FixesMoved(Contract, kw_only=True):
    """Corrections that only one side was made with."""

    new: list[Fix]
    withdrawn: list[Fix]


class SettingMoved(Contract, kw_only=True):
    """A setting that differs: `where` it stands in a stage's view, what it was and is."""

    where: str
    was: Any
    now: Any = msgspec.field(name="is")


class Causes(Contract, kw_only=True):
    """What differs of what both were made of; any of it may be behind what moved."""

    data: tuple[str, str] | None  # fingerprints
    corrections: FixesMoved
    settings: list[SettingMoved]
    code: bool
    earlier: tuple[int, int] | None = None  # looks of earlier builds that are counted


class Difference(Contract, kw_only=True):
    """What differs from one edition, or brief, to another of the same topic."""

    old: str
    new: str
    facts: list[FactMoved]
    lines: list[LinesMoved]
    charts: list[ChartMoved]
    causes: Causes
    same: bool  # whether both say and draw the same


class Citation(Contract, kw_only=True):
    """A cited fact of an archived edition, as printed; `later` is what a later edition says."""

    say: str | None
    fact: str
    display: str
    spoken: str
    edition: str
    later: str | None


class Since(Contract, kw_only=True):
    """What changed since the newest edition, `edition`, that was there."""

    edition: int
    difference: Difference


class CitedFacts(Contract, kw_only=True):
    """Facts of another topic's edition ('long-grass/1') that a topic cites, with all they are of.

    `view` is what that brief saw of the configuration, `findings` has no others than theirs.
    """

    edition: str
    view: dict[str, Any]
    findings: Findings
    facts: list[Fact]


class FromEditions(Contract, kw_only=True):
    """What a script was held against beside its topic's own facts."""

    earlier: list[EarlierFacts] = []
    cited: list[CitedFacts] = []


class Around(Contract, kw_only=True):
    """around.json: what a brief took from earlier editions, so that it can be made without them."""

    see_also: list[Citation]
    since: Since | None
    script: FromEditions = msgspec.field(default_factory=FromEditions)
