"""Tallies of a ten-million-delivery table against the same sums in hand-written SQL."""

from __future__ import annotations

import statistics
from pathlib import Path

import duckdb

from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.config.project import Phase
from pipeline.metrics.tally import tally
from pipeline.tables import played
from tests.bench.clock import seconds
from tests.seasons import event
from tests.view_makers import ONE_DAY, metrics_view

ROWS, MATCHES, RUNS = 10_000_000, 16_000, 3
TABLES = {
    "matches": """
        SELECT 'm' || i AS match_id, make_date(2000 + i // 800, 6, 1 + i % 800 // 40) AS date,
            make_date(2000 + i // 800, 6, 1 + i % 800 // 40) AS last_day,
            (2000 + i // 800)::VARCHAR AS season, 'Pebble Cup' AS competition,
            'domestic one-day' AS match_type,
            'female' AS gender, 'club' AS team_type, 'Field ' || (i % 20) AS ground,
            'Field ' || (i % 20) AS venue, 'Northmoor' AS team_1, 'Southfen' AS team_2,
            'unknown' AS country, 'unknown' AS region, 6 AS balls_per_over,
            'bench' AS source, false AS reduced
        FROM range({matches}) t(i) ORDER BY date, match_id""",
    "players": """
        SELECT 'p' AS id, 'p' AS name, 'p' AS label, '' AS sides, 'unknown' AS hand,
            'unknown' AS arm, 'unknown' AS kind, 'unknown' AS style, '' AS tags""",
    "deliveries": """
        SELECT 'm' || (i // {each}) AS match_id, ((i // 312) % 2 + 1)::TINYINT AS innings,
            ((i % 312) // 6 + 1)::SMALLINT AS over, (i % 7 = 0)::SMALLINT AS wides,
            (hash(i) % 7)::SMALLINT AS runs_batter, (hash(i) % 7 + 1)::SMALLINT AS runs_total,
            (hash(i) % 7 + 1)::SMALLINT AS runs_bowler, i % 7 <> 0 AS legal,
            (hash(i) % 40 = 0)::SMALLINT AS wickets, (hash(i) % 43 = 0)::SMALLINT AS bowler_wickets,
            CASE hash(i // 6) % 5 WHEN 0 THEN 'unknown' WHEN 1 THEN 'spin' ELSE 'pace' END
                AS bowler_kind
        FROM range({rows}) t(i)""",
}
PHASES = {"powerplay": [1, 10], "middle": [11, 40], "death": [41, 50]}
FORM = ONE_DAY.model_copy(
    update={"phases": {name: Phase(overs=overs, label=name) for name, overs in PHASES.items()}}
)
VIEW = metrics_view(
    [
        BeforeAfter(
            id="kinds",
            kind="before_after",
            measure=["economy", "average"],
            by=["bowler_kind", "phase"],
        )
    ],
    format=FORM,
    event=event("2010-01-01", {"seasons": 5}, {"seasons": 5}),
    measures={
        "economy": ("runs_bowler", "legal"),
        "average": ("runs_bowler", "bowler_wickets"),
    },
)
# What somebody would write for the same sums, and the same data line.
BY_HAND = """
SELECT match_id, season, date, ground, bowler_kind,
    CASE WHEN season BETWEEN '2005' AND '2009' THEN 'before'
        WHEN season BETWEEN '2010' AND '2014' THEN 'after' ELSE 'outside' END AS side,
    CASE WHEN over <= 10 THEN 'powerplay' WHEN over <= 40 THEN 'middle'
        WHEN over <= 50 THEN 'death' ELSE 'unknown' END AS phase,
    sum(runs_bowler), count_if(legal), sum(bowler_wickets)
FROM '{folder}/deliveries.parquet' JOIN '{folder}/matches.parquet' USING (match_id)
WHERE match_type = 'domestic one-day' AND balls_per_over = 6
GROUP BY GROUPING SETS (
    (match_id, season, date, ground, side),
    (match_id, season, date, ground, side, bowler_kind, phase)
)
"""
HOLDINGS = """
SELECT count(DISTINCT match_id), count_if(legal), count_if(legal AND bowler_kind = 'unknown')
FROM '{folder}/deliveries.parquet' JOIN '{folder}/matches.parquet' USING (match_id)
"""


def figures(root: Path) -> dict[str, float]:
    folder = root / "clean"
    folder.mkdir()
    sizes = {"rows": ROWS, "matches": MATCHES, "each": ROWS // MATCHES}
    with duckdb.connect() as db:
        for name, query in TABLES.items():
            db.execute(f"COPY ({query.format(**sizes)}) TO '{folder}/{name}.parquet'")
    paths = played(folder)
    ours = statistics.median(seconds(lambda: tally(VIEW, paths, [])) for _ in range(RUNS))
    hand = statistics.median(seconds(lambda: by_hand(folder)) for _ in range(RUNS))
    return {"tallies_seconds": round(ours, 2), "tallies_vs_sql": round(ours / hand, 2)}


def by_hand(folder: Path) -> None:
    with duckdb.connect() as db:
        for query in (BY_HAND, HOLDINGS):
            db.sql(query.format(folder=folder)).to_arrow_table()
