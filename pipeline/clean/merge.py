"""The clean tables, as SQL over every source's raw ones."""

from __future__ import annotations

# The highest revision of a match wins; between equals, the source named first in sources.yaml.
KEPT = """
CREATE TABLE kept AS
SELECT * EXCLUDE (choice) FROM (
    SELECT *, row_number() OVER (
        PARTITION BY match_id ORDER BY revision DESC, source_order
    ) AS choice
    FROM raw_matches
) WHERE choice = 1
"""

# Copies that were not kept: few, so that leaving them out costs less than looking up what was.
DROPPED = """
CREATE TABLE dropped AS
SELECT match_id, source FROM raw_matches ANTI JOIN kept USING (match_id, source)
"""

KEPT_INNINGS = """
CREATE TABLE kept_innings AS
SELECT i.* EXCLUDE (source, source_order)
FROM raw_innings i JOIN kept k ON k.match_id = i.match_id AND k.source = i.source
ORDER BY i.match_id, i.innings
"""

MATCHES = """
CREATE TABLE matches AS
SELECT k.match_id, k.date, greatest(k.date, k.last_day) AS last_day, k.season,
    coalesce(k.competition, 'unknown') AS competition,
    k.match_type, coalesce(k.gender, 'unknown') AS gender,
    coalesce(k.team_type, 'unknown') AS team_type,
    coalesce(nullif(g.ground, 'unknown'), k.venue, 'unknown') AS ground,
    coalesce(nullif(g.city, 'unknown'), k.city, 'unknown') AS city,
    coalesce(g.country, 'unknown') AS country,
    coalesce(g.region, 'unknown') AS region,
    coalesce(g.home, 'unknown') AS home,
    k.team_1, k.team_2, k.toss_winner, k.toss_decision, k.winner, k.margin, k.method, k.result,
    k.overs_limit, k.balls_per_over, k.target, r.target_balls, r.reduced,
    k.venue, k.city AS venue_city, k.super_overs, k.source, k.revision
FROM kept k
LEFT JOIN reductions r ON r.match_id = k.match_id
LEFT JOIN grounds own ON own.venue = trim(k.venue) AND own.venue_city = trim(k.city)
LEFT JOIN grounds plain ON plain.venue = trim(k.venue) AND plain.venue_city = ''
LEFT JOIN grounds g ON g.row = coalesce(own.row, plain.row)
ORDER BY k.date, k.match_id
"""

# Batting position: the order in which batters are first seen at either end.
POSITIONS = """
CREATE TABLE positions AS
SELECT match_id, innings, id,
    row_number() OVER (PARTITION BY match_id, innings ORDER BY min(first_seen)) AS position
FROM (
    SELECT match_id, innings, batter_id AS id, min((over::INT * 1000 + delivery) * 2) AS first_seen
    FROM corrected GROUP BY ALL
    UNION ALL
    SELECT match_id, innings, non_striker_id, min((over::INT * 1000 + delivery) * 2 + 1)
    FROM corrected GROUP BY ALL
)
GROUP BY match_id, innings, id
"""

# No sort is needed: ingest has the deliveries of a match in order, and `as_written` keeps them so.
DELIVERIES = """
SELECT d.*,
    coalesce(b.kind, 'unknown') AS bowler_kind,
    coalesce(b.arm, 'unknown') AS bowler_arm,
    coalesce(b.style, 'unknown') AS bowler_style,
    coalesce(h.hand, 'unknown') AS batter_hand,
    p.position::TINYINT AS batting_position
FROM corrected d
JOIN positions p ON p.match_id = d.match_id AND p.innings = d.innings AND p.id = d.batter_id
LEFT JOIN players b ON b.id = d.bowler_id
LEFT JOIN players h ON h.id = d.batter_id
"""

INNINGS = """
CREATE TABLE innings AS
SELECT i.match_id, i.innings, i.batting_team,
    coalesce(s.runs, 0)::INT + i.penalty_pre + i.penalty_post AS runs,
    i.penalty_pre + i.penalty_post AS penalty,
    coalesce(s.wickets, 0)::INT AS wickets, coalesce(s.balls, 0)::INT AS balls,
    i.target_runs, t.target_balls, i.declared, i.forfeited, i.miscounted_overs, i.miscounted
FROM kept_innings i
LEFT JOIN targets t ON t.match_id = i.match_id AND t.innings = i.innings
LEFT JOIN (
    SELECT match_id, innings, sum(runs_total) AS runs, sum(wickets) AS wickets,
        count_if(legal) AS balls
    FROM deliveries GROUP BY ALL
) s ON s.match_id = i.match_id AND s.innings = i.innings
ORDER BY i.match_id, i.innings
"""

TOUCHED = """
CREATE TABLE touched AS
SELECT match_id FROM mended UNION SELECT match_id FROM fixed ORDER BY match_id
"""

# Matches that a correction touches, with corrected deliveries in place of those they mend: `mended`
# are the places of these in the data.
REMADE = """
CREATE TABLE remade AS
SELECT * FROM (
    SELECT * FROM played p WHERE match_id IN (SELECT match_id FROM touched) AND NOT EXISTS (
        SELECT 1 FROM mended f WHERE f.match_id = p.match_id AND f.innings = p.innings
            AND f.over = p.over AND f.delivery = p.delivery
    )
    UNION ALL BY NAME SELECT * FROM fixed
)
ORDER BY match_id, innings, over, delivery
"""

# All others as they were read, then those.
CORRECTED = """
CREATE VIEW corrected AS
SELECT * FROM played ANTI JOIN touched USING (match_id)
UNION ALL BY NAME SELECT * FROM remade
"""

# With the hand and the batting position of the player who was out.
DISMISSALS = """
SELECT p.*, coalesce(h.hand, 'unknown') AS hand, o.position::TINYINT AS batting_position
FROM (
    SELECT * FROM fallen p
    WHERE NOT EXISTS (
        SELECT 1 FROM mended f WHERE f.match_id = p.match_id AND f.innings = p.innings
            AND f.over = p.over AND f.delivery = p.delivery
    )
    UNION ALL BY NAME SELECT * FROM fixed_dismissals
) p
LEFT JOIN players h ON h.id = p.player_out_id
LEFT JOIN positions o
    ON o.match_id = p.match_id AND o.innings = p.innings AND o.id = p.player_out_id
ORDER BY p.match_id, p.innings, p.over, p.delivery, p.player_out_id
"""

# Everyone who played: what is known of them, and a name that is theirs alone.
PLAYERS = """
WITH named AS (
    SELECT n.id, coalesce(nullif(max(p.name), ''), min(n.name)) AS name,
        string_agg(DISTINCT n.team, ', ' ORDER BY n.team) AS sides,
        coalesce(max(p.hand), 'unknown') AS hand, coalesce(max(p.arm), 'unknown') AS arm,
        coalesce(max(p.kind), 'unknown') AS kind, coalesce(max(p.style), 'unknown') AS style,
        coalesce(max(p.second_style), '') AS second_style, coalesce(max(p.tags), '') AS tags
    FROM people n LEFT JOIN players p USING (id) GROUP BY n.id
), told_apart AS (
    SELECT *, count(*) OVER (PARTITION BY name) AS namesakes,
        count(*) OVER (PARTITION BY name, sides) AS doubles
    FROM named
)
SELECT id, name,
    CASE WHEN namesakes = 1 THEN name
        WHEN doubles = 1 THEN name || ' (' || sides || ')'
        WHEN starts_with(id, name || ' (') THEN id ELSE name || ' (' || id || ')'
    END AS label,
    sides, hand, arm, kind, style, second_style, tags
FROM told_apart ORDER BY id
"""
