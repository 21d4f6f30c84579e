"""What ingest found: counts for the quality report."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

import pyarrow as pa
import pyarrow.compute as pc

from pipeline.contracts.quality import OddPlay, SourceReport
from pipeline.ingest.columns import Tables

SUMS = {"valid_balls": "legal", "runs": "runs_total"} | {
    name: name for name in ("wickets", "bowler_wickets")
}


def figures_of(tables: Tables) -> dict[str, int]:
    """The figures of some matches that add up to those of a source."""
    innings = tables.innings
    return {
        "matches": tables.matches.num_rows,
        "innings": innings.num_rows,
        "deliveries": tables.deliveries.num_rows,
        **{name: _sum(tables.deliveries[column]) for name, column in SUMS.items()},
        "super_overs_set_aside": _sum(tables.matches["super_overs"]),
        "overs_marked_miscounted": _sum(innings["miscounted_overs"]),
        "innings_forfeited": _sum(innings["forfeited"]),
    }


def report_of(
    source: str,
    figures: Mapping[str, int],
    people: pa.Table,
    quarantined: list[str],
    strays: Counter[str],
    odd: dict[str, OddPlay],
) -> SourceReport:
    """The content of report.json; `figures` are added up, `people` are the source's."""
    ids, registered = people["id"].to_pylist(), people["registered"].to_pylist()
    without = {person for person, known in zip(ids, registered, strict=True) if not known}
    return SourceReport(
        source=source,
        **figures,
        people=len(set(ids)),
        people_without_id=len(without),
        stray_keys=dict(sorted(strays.items())),
        quarantined=quarantined,
        odd=odd,
    )


def _sum(column: Any) -> int:
    return pc.sum(column).as_py() or 0
