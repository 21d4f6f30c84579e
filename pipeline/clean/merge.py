"""The clean tables, as one pass of SQL over every source's raw ones."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa

# The highest revision of a match wins; between equals, the source named first in sources.yaml.
KEPT = """
CREATE TABLE kept AS
SELECT * FROM (
    SELECT *, row_number() OVER (
        PARTITION BY match_id ORDER BY revision DESC, source_order
    ) AS choice
    FROM raw_matches
) WHERE choice = 1
"""

MATCHES = """
SELECT k.match_id, k.date, k.season,
    coalesce(k.competition, 'unknown') AS competition,
    k.match_type, coalesce(k.gender, 'unknown') AS gender,
    coalesce(k.team_type, 'unknown') AS team_type,
    coalesce(nullif(g.ground, 'unknown'), k.venue, 'unknown') AS ground,
    coalesce(nullif(g.city, 'unknown'), k.city, 'unknown') AS city,
    coalesce(g.country, 'unknown') AS country,
    coalesce(g.region, 'unknown') AS region,
    k.team_1, k.team_2, k.toss_winner, k.toss_decision, k.winner, k.margin, k.method, k.result,
    k.overs_limit, k.balls_per_over, k.target, k.source, k.revision
FROM kept k LEFT JOIN grounds g ON g.venue = trim(k.venue)
ORDER BY k.date, k.match_id
"""

PLAYED = """
CREATE VIEW played AS
SELECT d.* EXCLUDE (source), k.date
FROM raw_deliveries d JOIN kept k ON k.match_id = d.match_id AND k.source = d.source
"""

# Batting position: the order in which batters are first seen at either end.
POSITIONS = """
CREATE TABLE positions AS
SELECT match_id, innings, id,
    row_number() OVER (PARTITION BY match_id, innings ORDER BY min(first_seen)) AS position
FROM (
    SELECT match_id, innings, batter_id AS id, min((over::INT * 1000 + delivery) * 2) AS first_seen
    FROM played GROUP BY ALL
    UNION ALL
    SELECT match_id, innings, non_striker_id, min((over::INT * 1000 + delivery) * 2 + 1)
    FROM played GROUP BY ALL
)
GROUP BY match_id, innings, id
"""

DELIVERIES = """
SELECT d.* EXCLUDE (date),
    coalesce(b.kind, 'unknown') AS bowler_kind,
    coalesce(b.arm, 'unknown') AS bowler_arm,
    coalesce(b.style, 'unknown') AS bowler_style,
    coalesce(h.hand, 'unknown') AS batter_hand,
    p.position::TINYINT AS batting_position
FROM played d
JOIN positions p ON p.match_id = d.match_id AND p.innings = d.innings AND p.id = d.batter_id
LEFT JOIN players b ON b.id = d.bowler_id
LEFT JOIN players h ON h.id = d.batter_id
ORDER BY d.date, d.match_id, d.innings, d.over, d.delivery
"""


def open_sources(
    folders: dict[str, Path], players: pa.Table, grounds: pa.Table
) -> duckdb.DuckDBPyConnection:
    """A database with the raw tables of all sources (id -> folder) and the sheets."""
    db = duckdb.connect()
    db.register("players", players)
    db.register("grounds", grounds)
    order = ", ".join(f"({_quoted(name)}, {i})" for i, name in enumerate(folders))
    matches = _union(folders, "matches")
    db.execute(f"CREATE VIEW source_orders AS SELECT * FROM (VALUES {order}) t(name, source_order)")
    db.execute(
        f"CREATE VIEW raw_matches AS SELECT m.* , o.source_order FROM ({matches}) m "
        "JOIN source_orders o ON o.name = m.source"
    )
    db.execute(f"CREATE VIEW raw_deliveries AS {_union(folders, 'deliveries', tagged=True)}")
    db.execute(KEPT)
    db.execute(PLAYED)
    db.execute(POSITIONS)
    return db


def _union(folders: dict[str, Path], table: str, tagged: bool = False) -> str:
    parts = []
    for name, folder in folders.items():
        tag = f", {_quoted(name)} AS source" if tagged else ""
        parts.append(f"SELECT *{tag} FROM read_parquet({_quoted(folder / f'{table}.parquet')})")
    return " UNION ALL ".join(parts)


def _quoted(value: Any) -> str:
    text = str(value).replace("'", "''")
    return f"'{text}'"


def quality(db: duckdb.DuckDBPyConnection) -> dict[str, Any]:
    """What the merge kept and what it does not know; shares are of valid balls."""
    read, kept = db.execute(
        "SELECT (SELECT count(*) FROM raw_matches), (SELECT count(*) FROM kept)"
    ).fetchall()[0]
    row = db.execute(
        """
        SELECT count(*), sum(legal::INT), sum(runs_total), sum(runs_bowler), sum(wickets),
            sum((legal AND bowler_kind = 'unknown')::INT),
            sum((legal AND bowler_arm = 'unknown')::INT),
            sum((legal AND batter_hand = 'unknown')::INT)
        FROM deliveries
        """
    ).fetchall()[0]
    deliveries, legal, runs, charged, wickets, *unknown = (int(value or 0) for value in row)
    grounds = db.execute("SELECT count(*) FROM matches WHERE country = 'unknown'").fetchall()[0][0]
    return {
        "matches_read": read,
        "matches_kept": kept,
        "duplicates_dropped": read - kept,
        "deliveries": deliveries,
        "valid_balls": legal,
        "runs": runs,
        "runs_charged": charged,
        "wickets": wickets,
        "valid_balls_unknown": dict(
            zip(("bowler_kind", "bowler_arm", "batter_hand"), unknown, strict=True)
        ),
        "matches_without_country": grounds,
    }
