"""What ingest found: counts for the quality report, and progress while it works."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from typing import Any, TypeVar

import pyarrow.compute as pc

from pipeline.ingest.chunk import Tables

Item = TypeVar("Item")


def counts(tables: Tables, quarantined: list[str]) -> dict[str, Any]:
    """One source's figures, as written to report.json."""
    deliveries, matches = tables.deliveries, tables.matches
    total = {"runs": "runs_total", "wickets": "wickets", "bowler_wickets": "bowler_wickets"}
    unnamed = pc.sum(pc.match_substring_regex(tables.people["id"], r" \((fe)?male\)$")).as_py()
    return {
        "matches": matches.num_rows,
        "innings": tables.innings.num_rows,
        "deliveries": deliveries.num_rows,
        "valid_balls": pc.sum(deliveries["legal"]).as_py() or 0,
        **{name: pc.sum(deliveries[column]).as_py() or 0 for name, column in total.items()},
        "people": tables.people.num_rows,
        "people_without_id": unnamed or 0,
        "super_overs_set_aside": pc.sum(matches["super_overs"]).as_py() or 0,
        "miscounted_overs": pc.sum(tables.innings["miscounted_overs"]).as_py() or 0,
        "quarantined": quarantined,
    }


def progress(items: Iterable[Item], total: int, what: str) -> Iterator[Item]:
    """A bar on a terminal; elsewhere a plain line at each quarter."""
    if sys.stderr.isatty():
        from tqdm import tqdm

        yield from tqdm(items, total=total, desc=what, unit="chunk", leave=False)
        return
    said = 0
    for done, item in enumerate(items, start=1):
        yield item
        if total > 3 and done * 4 // total > said:
            said = done * 4 // total
            print(f"{what}: {100 * done // total} %", file=sys.stderr)
