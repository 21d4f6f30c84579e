"""Sheets to fill: what is unknown, the most balls first, in the columns of the real sheets.

Suggested countries and grounds are candidates to confirm and are never used by any stage.
"""

from __future__ import annotations

from typing import Any

import duckdb

from pipeline.clean.gazetteer import countries_of
from pipeline.clean.grounds_alike import proposals, venues_met
from pipeline.clean.sheets import GROUND_COLUMNS, PLAYER_COLUMNS
from pipeline.csv_files import csv_text
from pipeline.sql import count

Row = dict[str, Any]
PLAYERS = """
WITH bowled AS (
    SELECT bowler_id AS id, count_if(legal) AS balls FROM deliveries
    WHERE bowler_kind = 'unknown' GROUP BY ALL
), batted AS (
    SELECT batter_id AS id, count_if(legal) AS balls FROM deliveries
    WHERE batter_hand = 'unknown' GROUP BY ALL
), named AS (
    SELECT id, min(name) AS name, string_agg(DISTINCT team, '; ' ORDER BY team) AS sides
    FROM people GROUP BY id
)
SELECT id, coalesce(nullif(p.name, ''), n.name) AS name, n.sides,
    CASE WHEN p.hand IN ('left', 'right') THEN p.hand ELSE coalesce(p.hand_as_written, '') END AS
    batting_hand,
    coalesce(p.as_written, '') AS bowling_style, coalesce(p.tags, '') AS tags,
    coalesce(bowled.balls, 0)::BIGINT AS balls_bowled,
    coalesce(batted.balls, 0)::BIGINT AS balls_faced
FROM bowled FULL JOIN batted USING (id)
LEFT JOIN named n USING (id) LEFT JOIN players p USING (id)
WHERE coalesce(bowled.balls, 0) + coalesce(batted.balls, 0) > 0
ORDER BY balls_bowled + balls_faced DESC, id
"""

GROUNDS = """
SELECT coalesce(m.venue, '') AS venue, coalesce(m.venue_city, '') AS venue_city,
    CASE WHEN m.ground = m.venue THEN '' ELSE m.ground END AS ground,
    CASE WHEN m.city = 'unknown' THEN '' ELSE m.city END AS city,
    CASE WHEN m.country = 'unknown' THEN '' ELSE m.country END AS country,
    count(DISTINCT m.match_id) AS matches, coalesce(sum(i.balls), 0)::BIGINT AS balls
FROM matches m LEFT JOIN innings i USING (match_id)
GROUP BY ALL ORDER BY balls DESC, venue, venue_city
"""


def players_to_fill(db: duckdb.DuckDBPyConnection) -> str:
    """Players without bowling kind or hand, with the coverage reached by filling down to each."""
    rows = _rows(db, PLAYERS)
    kind = _known(db, "bowler_kind")
    hand = _known(db, "batter_hand")
    total = count(db, "SELECT count_if(legal) FROM deliveries")
    for row in rows:
        kind, hand = kind + row["balls_bowled"], hand + row["balls_faced"]
        row["needs"] = " and ".join(
            name
            for name, balls in (("bowling_style", "balls_bowled"), ("batting_hand", "balls_faced"))
            if row[balls]
        )
        row["kind_known_to_here"] = _share(kind, total)
        row["hand_known_to_here"] = _share(hand, total)
    more = ("needs", "sides", "balls_bowled", "balls_faced")
    columns = (*PLAYER_COLUMNS, *more, "kind_known_to_here", "hand_known_to_here")
    return csv_text(rows, columns)


def grounds_to_fill(db: duckdb.DuckDBPyConnection) -> str:
    """Venues without a country, with the coverage reached and candidates to confirm.

    And those that may be another spelling of a ground, though their country is known.
    """
    alike = proposals(venues_met(db))
    rows = [
        row
        for row in _rows(db, GROUNDS)
        if not row["country"] or (row["venue"], row["venue_city"]) in alike
    ]
    total = count(db, "SELECT count_if(legal) FROM deliveries")
    known = count(
        db,
        "SELECT count_if(d.legal) FROM deliveries d JOIN matches m USING (match_id) "
        "WHERE m.country <> 'unknown'",
    )
    for row in rows:
        if not row["country"]:
            known += row["balls"]
            row["perhaps_country"] = countries_of(row["city"], row["venue"])
        row["country_known_to_here"] = _share(known, total)
        if proposal := alike.get((row["venue"], row["venue_city"])):
            row["perhaps_ground"] = proposal.ground
            row["perhaps_same_as"] = "; ".join(proposal.same_as)
    more = ("matches", "balls", "country_known_to_here")
    perhaps = ("perhaps_ground", "perhaps_same_as", "perhaps_country")
    return csv_text(rows, (*GROUND_COLUMNS, "venue_city", *more, *perhaps))


def _known(db: duckdb.DuckDBPyConnection, column: str) -> int:
    return count(db, f"SELECT count_if(legal AND {column} <> 'unknown') FROM deliveries")


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole:.1f} %" if whole else ""


def _rows(db: duckdb.DuckDBPyConnection, query: str) -> list[Row]:
    rows: list[Row] = db.sql(query).to_arrow_table().to_pylist()
    return rows
