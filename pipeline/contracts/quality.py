"""What was read, kept, unknown and odd in the data: of one source, and of all of them merged."""

from __future__ import annotations

from pipeline.contracts.base import Contract
from pipeline.contracts.selection import Fix


class Odd(Contract, kw_only=True):
    """How often something odd was found, and the first of them."""

    count: int
    examples: list[str]


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
    odd: dict[str, Odd] = {}


class Quality(Contract, kw_only=True):
    """quality.json: the merged data; `coverage` are shares of valid balls, none where there are no
    balls; what is looked for has its query in `clean/quality.py`."""

    sources: list[SourceReport]
    counts: dict[str, int]
    checked: dict[str, int]
    coverage: dict[str, float | None]
    odd: dict[str, Odd]
    corrections: list[Fix]
