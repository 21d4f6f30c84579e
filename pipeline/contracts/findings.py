"""findings.json: everything that charts and brief may say, the only place numbers come from."""

from __future__ import annotations

from datetime import date

from pipeline.contracts.base import Contract
from pipeline.contracts.finding import Finding
from pipeline.contracts.ledger import EarlierLook, Version
from pipeline.contracts.notes import AtLeast
from pipeline.contracts.parts import Side
from pipeline.contracts.selection import Fix, Holdings, Season
from pipeline.contracts.timing import Timed


class Look(Contract, kw_only=True):
    """Of one measure of one beat: how many comparisons were made, and what they came to.

    `again` are the rows beside them that answer what an earlier beat asked.
    """

    beat: str
    measure: str
    looks: int
    again: int = 0
    headlines: int
    changed: int
    held: int
    cant_tell: int


class Family(Contract, kw_only=True):
    """All comparisons of the topic, counted with those that were refused.

    One that several beats show is one; `again` are the rows that show it once more. `earlier` are
    the looks of earlier builds that are counted with the headlines, beside those of today.
    """

    looked_at: int
    again: int = 0
    headlines: int
    tables: int
    refused: int
    alpha: float
    table_rate: float
    changed: int
    held: int
    cant_tell: int
    looks: list[Look]
    earlier: int = 0


class Point(Side, kw_only=True):
    """A point of a series: a season's or quarter's value, its first and its last match.

    `part`: too short an end of the data to be held against the others.
    """

    label: str
    first: date | None
    last: date | None
    part: bool = False


class Sample(Contract, kw_only=True):
    """What a beat's chart stands on, each match once."""

    matches: int
    balls: int


class PlayersList(Contract, kw_only=True):
    """How many players there were, how many the threshold left, and of which kinds they are."""

    in_either: int
    in_both: int
    kept: int
    left_out: int
    at_least: AtLeast
    kinds: dict[str, int]
    arms: dict[str, int]
    styles: dict[str, int]
    hands: dict[str, int]
    tags: dict[str, int]


class Findings(Timed, kw_only=True):
    """A topic's findings, series and lists; keys of `series`, `samples` and `lists` are
    'beat.measure'.

    `expected` are the findings that the topic's expectations name; `earlier` what its ledger had
    beside these and the headlines; `versions` the headlines whose question was asked otherwise
    before, by their ids.
    """

    data: Holdings
    fingerprint: str
    corrections: list[Fix]
    seasons: list[Season]
    headlines: list[str]
    family: Family
    findings: list[Finding]
    series: dict[str, list[Point]]
    samples: dict[str, Sample]
    lists: dict[str, PlayersList]
    queries: dict[str, str]
    expected: list[str] = []
    earlier: list[EarlierLook] = []
    versions: dict[str, Version] = {}
