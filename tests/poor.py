"""The untidy league made poorer: constant, empty, one-sided, of one season, of half a sheet.

Each way is a change of the clean tables, as a poor league or a half-filled sheet would make them.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import duckdb

from pipeline.errors import UserError
from tests.golden.made import Made, made
from tests.untidy import HEAD

Beat = dict[str, Any]
# What the balls give: columns of deliveries that are replaced.
GIVE = {
    "as they are": "",
    "one run each": "1 AS runs_batter, 1 AS runs_total, 1 AS runs_bowler, 0 AS wickets, "
    "0 AS bowler_wickets, false AS four, false AS six, true AS legal, true AS faced, 0 AS wides",
    "nothing at all": "0 AS runs_batter, 0 AS runs_total, 0 AS runs_bowler, 0 AS wickets, "
    "0 AS bowler_wickets, false AS four, false AS six",
    "four and a wicket each": "4 AS runs_batter, 4 AS runs_total, 4 AS runs_bowler, 1 AS wickets, "
    "1 AS bowler_wickets, true AS four, false AS six",
}
# Which balls there are.
KEEP = {
    "all of them": "true",
    "of one season": "m.season = '2018'",
    "of two seasons": "m.season IN ('2019', '2021')",
    "of the window before": "m.date < DATE '2020-01-01'",
    "of the window after": "m.date > DATE '2020-01-01'",
    "of one match a season": "m.match_id IN (SELECT min(match_id) FROM {matches} GROUP BY season)",
    "of the first innings": "d.innings = 1",
    "of spin before and pace after": "(d.bowler_kind = 'spin') = (m.date < DATE '2020-01-01')",
    "of one phase": "d.over > 40",
    "of one over": "d.over = 1 AND d.innings = 1",
    "with one ball after": "m.date < DATE '2020-01-01' OR (d.over = 1 AND d.delivery = 1)",
}
# What the players' sheet knows.
KNOW = {
    "what it knows": "",
    "pace only": "'pace'",
    "nobody": "''",
}
MEASURES = ("run_rate", "bowling_strike_rate", "boundary_share", "dot_share", "innings_total")


def poorer(project: Path, folder: Path, give: str, keep: str, know: str) -> Path:
    """A copy of the project whose clean tables were made poorer in these ways."""
    source, data = project / "output" / "data", folder / "output" / "data"
    data.mkdir(parents=True)
    for name in ("config", "demo_data", "templates"):
        (folder / name).symlink_to((project / name).resolve())
    shutil.copy(source / "corrections.json", data)
    tables = {name: f"read_parquet('{source / name}.parquet')" for name in TABLES}
    replaced = [GIVE[give], _known("bowler_", KNOW[know])]
    deliveries = (
        f"SELECT d.* {_replace(replaced)} FROM {tables['deliveries']} d "
        f"JOIN {tables['matches']} m USING (match_id) WHERE {KEEP[keep].format(**tables)}"
    )
    for name in TABLES:
        query = f"SELECT * FROM {tables[name]}"
        if name == "deliveries":
            query = deliveries
        elif name == "players":
            query = f"SELECT * {_replace([_known('', KNOW[know])])} FROM {tables[name]}"
        elif name in ("matches", "dismissals"):
            query += f" WHERE match_id IN (SELECT match_id FROM ({deliveries}))"
        duckdb.connect().execute(f"COPY ({query}) TO '{data / name}.parquet'")
    return folder


TABLES = ("deliveries", "matches", "dismissals", "players", "innings")


def _known(prefix: str, kind: str) -> str:
    """Kind, arm and style unknown but of the one kind."""
    if not kind:
        return ""
    return ", ".join(
        f"CASE WHEN {prefix}kind = {kind} THEN {prefix}{name} ELSE 'unknown' END AS {prefix}{name}"
        for name in ("kind", "arm", "style")
    )


def _replace(parts: list[str]) -> str:
    given = ", ".join(part for part in parts if part)
    return f"REPLACE ({given})" if given else ""


def shown(project: Path, beats: list[Beat], out: Path, head: str = HEAD) -> Made | None:
    """All of a topic of these beats, less those that a line of the topic's file refuses.

    None where the whole topic is refused, or nothing is left to show.
    """
    left = list(beats)
    while left:
        listed = "".join(f"  - {json.dumps(beat)}\n" for beat in left)
        (project / "config" / "topics" / "asked.yaml").write_text(
            f"{head}beats:\n{listed}", "utf-8"
        )
        try:
            return made(project, "asked", out)
        except UserError as error:
            places = {problem.where for problem in error.problems}
            assert all(problem.message and problem.where for problem in error.problems), error
            refused = [
                at for at in range(len(left)) if any(f"beats[{at + 1}]" in p for p in places)
            ]
            if not refused:
                return None
            left = [beat for at, beat in enumerate(left) if at not in refused]
    return None
