"""What ingest found: counts for the quality report."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

import pyarrow.compute as pc

from pipeline.contracts.quality import Odd, SourceReport
from pipeline.ingest.columns import Person, Tables
from pipeline.ingest.oddities import merged

SUMS = {"valid_balls": "legal", "runs": "runs_total"} | {
    name: name for name in ("wickets", "bowler_wickets")
}


@dataclass
class Report:
    """One source's figures, added up chunk by chunk."""

    figures: Counter[str] = field(default_factory=Counter)
    people: set[Person] = field(default_factory=set)
    odd: dict[str, Odd] = field(default_factory=dict)

    def add(self, tables: Tables) -> None:
        figures, innings = self.figures, tables.innings
        figures["matches"] += tables.matches.num_rows
        figures["innings"] += innings.num_rows
        figures["deliveries"] += tables.deliveries.num_rows
        for name, column in SUMS.items():
            figures[name] += _sum(tables.deliveries[column])
        figures["super_overs_set_aside"] += _sum(tables.matches["super_overs"])
        figures["overs_marked_miscounted"] += _sum(innings["miscounted_overs"])
        figures["innings_forfeited"] += _sum(innings["forfeited"])
        self.people |= {Person(**row) for row in tables.people.to_pylist()}
        self.odd = merged([self.odd, tables.odd])

    def as_written(self, source: str, quarantined: list[str], strays: Counter[str]) -> SourceReport:
        """The content of report.json."""
        figures = self.figures
        return SourceReport(
            source=source,
            matches=figures["matches"],
            innings=figures["innings"],
            deliveries=figures["deliveries"],
            valid_balls=figures["valid_balls"],
            runs=figures["runs"],
            wickets=figures["wickets"],
            bowler_wickets=figures["bowler_wickets"],
            super_overs_set_aside=figures["super_overs_set_aside"],
            overs_marked_miscounted=figures["overs_marked_miscounted"],
            innings_forfeited=figures["innings_forfeited"],
            people=len({person.id for person in self.people}),
            people_without_id=len({p.id for p in self.people if not p.registered}),
            stray_keys=dict(sorted(strays.items())),
            quarantined=quarantined,
            odd=self.odd,
        )


def _sum(column: Any) -> int:
    return pc.sum(column).as_py() or 0
