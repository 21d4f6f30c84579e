"""python -m tests.bench.database FOLDER OUT: the same files flattened by DuckDB's own JSON reader.

It is told every type, so that it need not guess; it scans the files in parallel for the balls, and
once more for the facts of matches (kept in one table they would be unnested by one core, which took
twice as long). It makes the same five tables and checks nothing.
"""

from __future__ import annotations

import sys

import duckdb

RUNS = "STRUCT(batter INT, extras INT, total INT, non_boundary BOOLEAN)"
EXTRAS = "STRUCT(wides INT, noballs INT, byes INT, legbyes INT, penalty INT)"
WICKETS = "STRUCT(kind VARCHAR, player_out VARCHAR)[]"
DELIVERY = (
    "STRUCT(batter VARCHAR, bowler VARCHAR, non_striker VARCHAR, "
    f"runs {RUNS}, extras {EXTRAS}, wickets {WICKETS})"
)
OVERS = f'overs STRUCT("over" INT, deliveries {DELIVERY}[])[], '
INNINGS = (
    "STRUCT(team VARCHAR, {overs}"
    "target STRUCT(runs INT, overs VARCHAR), penalty_runs STRUCT(pre INT, post INT), "
    "declared BOOLEAN, forfeited BOOLEAN, super_over BOOLEAN)"
)
INFO = (
    'STRUCT(balls_per_over INT, city VARCHAR, dates DATE[], event STRUCT("name" VARCHAR), '
    "gender VARCHAR, match_type VARCHAR, outcome STRUCT(winner VARCHAR, result VARCHAR, "
    '"by" MAP(VARCHAR, INT), method VARCHAR), overs INT, '
    "registry STRUCT(people MAP(VARCHAR, VARCHAR)), "
    "season VARCHAR, team_type VARCHAR, teams VARCHAR[], toss STRUCT(winner VARCHAR, "
    "decision VARCHAR), venue VARCHAR)"
)
META = "STRUCT(revision INT)"

FILES = """
CREATE {kind} AS
SELECT parse_filename(filename, true) AS match_id, meta, info, innings
FROM read_json('{folder}/*.json', filename = true, maximum_object_size = 67108864,
    columns = {{meta: '{meta}', info: '{info}', innings: '{innings}[]'}})
"""

BALLS = """
CREATE TABLE balls AS
WITH sides AS (
    SELECT match_id, info.registry.people AS people, info.teams AS teams,
        generate_subscripts(innings, 1) AS innings, unnest(innings) AS played
    FROM files
), overs AS (
    SELECT match_id, people, innings, played.team AS batting_team,
        CASE WHEN teams[1] = played.team THEN teams[2] ELSE teams[1] END AS bowling_team,
        unnest(played.overs) AS o
    FROM sides WHERE played.super_over IS NOT TRUE
)
SELECT match_id, innings, "over", delivery, batting_team, bowling_team,
    people[d.batter] AS batter_id, people[d.non_striker] AS non_striker_id,
    people[d.bowler] AS bowler_id, d.runs AS runs, d.extras AS extras,
    list_transform(d.wickets, lambda w: {'kind': w.kind, 'id': people[w.player_out]}) AS fallen
FROM (
    SELECT *, o."over" + 1 AS "over", generate_subscripts(o.deliveries, 1) AS delivery,
        unnest(o.deliveries) AS d
    FROM overs
)
"""

DELIVERIES = """
WITH scored AS (
    SELECT match_id, innings::TINYINT AS innings, "over"::SMALLINT AS "over",
        delivery::SMALLINT AS delivery, batter_id, non_striker_id, bowler_id,
        batting_team, bowling_team, runs.batter::SMALLINT AS runs_batter,
        coalesce(extras.wides, 0)::SMALLINT AS wides,
        coalesce(extras.noballs, 0)::SMALLINT AS noballs,
        coalesce(extras.byes, 0)::SMALLINT AS byes,
        coalesce(extras.legbyes, 0)::SMALLINT AS legbyes,
        coalesce(extras.penalty, 0)::SMALLINT AS penalty,
        coalesce(runs.non_boundary, false) AS non_boundary,
        coalesce(len(fallen), 0)::SMALLINT AS wickets,
        fallen[1].kind AS dismissal, fallen[1].id AS player_out_id
    FROM balls
)
SELECT *, wides = 0 AND noballs = 0 AS legal, wides = 0 AS faced,
    runs_batter + wides + noballs + byes + legbyes + penalty AS runs_total,
    runs_batter + wides + noballs AS runs_bowler,
    runs_batter = 4 AND NOT non_boundary AS four, runs_batter = 6 AND NOT non_boundary AS six,
    dismissal IN ('bowled', 'caught', 'caught and bowled', 'hit wicket', 'lbw', 'stumped')
        AS bowler_wickets
FROM scored
"""

OTHERS = {
    "dismissals": "SELECT match_id, innings, over, delivery, w.kind, w.id FROM "
    "(SELECT *, unnest(fallen) AS w FROM balls)",
    "matches": "SELECT match_id, meta.revision, info.* EXCLUDE (registry) FROM facts",
    "innings": "SELECT match_id, i.* FROM (SELECT match_id, unnest(innings) AS i FROM facts)",
    "people": "SELECT DISTINCT unnest(map_entries(info.registry.people), recursive := true) "
    "FROM facts",
}


def main(folder: str, out: str) -> None:
    db = duckdb.connect()
    for kind, overs in (("VIEW files", OVERS), ("TABLE facts", "")):
        innings = INNINGS.format(overs=overs)
        db.execute(FILES.format(kind=kind, folder=folder, meta=META, info=INFO, innings=innings))
    db.execute(BALLS)
    for name, query in {"deliveries": DELIVERIES, **OTHERS}.items():
        db.execute(f"COPY ({query}) TO '{out}/{name}.parquet' (FORMAT parquet, COMPRESSION lz4)")


if __name__ == "__main__":
    main(*sys.argv[1:])
