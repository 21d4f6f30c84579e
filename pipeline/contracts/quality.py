"""What was read, kept, unknown and odd in the data: of one source, and of all of them merged."""

from __future__ import annotations

import msgspec

from pipeline.contracts.base import Contract
from pipeline.contracts.selection import Fix


class Odd(Contract, kw_only=True):
    """How often something odd was found, and the first of them."""

    count: int
    examples: list[str]


class OddPlay(Odd, kw_only=True):
    """The same of play as it was read: people by their ids, and which ids each example holds."""

    who: list[list[str]] = []


class SourceReport(Contract, kw_only=True):
    """report.json: one source's figures as it was read, and what was wrong with its files.

    `odd` is what its play holds that may be true or a slip (`ingest/oddities.py`).
    """

    source: str
    matches: int
    innings: int
    deliveries: int
    valid_balls: int
    runs: int
    wickets: int
    bowler_wickets: int
    super_overs_set_aside: int
    overs_marked_miscounted: int
    innings_forfeited: int
    people: int
    people_without_id: int
    stray_keys: dict[str, int]
    quarantined: list[str]
    odd: dict[str, OddPlay] = {}


class Differs(Contract, kw_only=True):
    """A field of a match, of one of its innings or of its deliveries, of which two copies say
    otherwise.

    Of deliveries (or overs) `times` counts those in which it does, and `first` is where the first
    of them is, which is told.
    """

    field: str
    kept: str
    dropped: str
    times: int = 1
    first: str = ""


class Copy(Contract, kw_only=True):
    """A copy of a match that was dropped: of which source, which was kept and why.

    `lost` are fields that only the dropped copy fills.
    """

    match_id: str
    kept: str
    dropped: str
    why: str
    differs: list[Differs]
    lost: list[str]


class Duplicates(Contract, kw_only=True):
    """All copies that were dropped: `differing` of them differ from the copy kept.

    `fields` and `lost` count copies by field, `times` what differs in all copies: deliveries, for
    a field of theirs. `copies` are those that differ, the first of many.
    """

    count: int = 0
    differing: int = 0
    fields: dict[str, int] = {}
    times: dict[str, int] = {}
    lost: dict[str, int] = {}
    copies: list[Copy] = []


class Quality(Contract, kw_only=True):
    """quality.json: the merged data; `coverage` are shares of valid balls, none where there are no
    balls; what is looked for has its query in `clean/quality.py`; `called` are those whom
    corrections name by their ids."""

    sources: list[SourceReport]
    counts: dict[str, int]
    checked: dict[str, int]
    coverage: dict[str, float | None]
    odd: dict[str, Odd]
    corrections: list[Fix]
    duplicates: Duplicates = msgspec.field(default_factory=Duplicates)
    called: dict[str, str] = {}
