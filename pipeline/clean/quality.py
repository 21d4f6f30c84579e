"""How good the data are: counts, disagreements and clashes, each with some examples."""

from __future__ import annotations

import duckdb

from pipeline.clean.duplicates import LIKELY, duplicates
from pipeline.clean.grounds_alike import proposals, venues_met
from pipeline.clean.identities import BOTH_GENDERS
from pipeline.clean.named import CALLED, ids_in, named_play, names_of
from pipeline.clean.unread import unread_told
from pipeline.config.cuts import COVERED
from pipeline.contracts.quality import Odd, Quality, SourceReport
from pipeline.contracts.selection import Fix
from pipeline.ingest.oddities import merged
from pipeline.sql import count, quoted_list

EXAMPLES = 20  # the most that are named; the count is whole

COUNTS = """
SELECT (SELECT count(*) FROM raw_matches) AS matches_read,
    (SELECT count(*) FROM kept) AS matches,
    (SELECT count(*) FROM innings) AS innings,
    (SELECT count(*) FROM raw_deliveries) AS deliveries_read,
    count(*) AS deliveries, coalesce(count_if(legal), 0) AS valid_balls,
    coalesce(sum(runs_total), 0)::BIGINT AS runs,
    coalesce(sum(runs_bowler), 0)::BIGINT AS runs_charged,
    coalesce(sum(wickets), 0)::BIGINT AS wickets,
    (SELECT coalesce(sum(penalty), 0)::BIGINT FROM innings) AS penalty_runs_of_innings,
    (SELECT coalesce(sum(super_overs), 0)::BIGINT FROM kept) AS super_overs_set_aside,
    (SELECT coalesce(count_if(forfeited), 0) FROM innings) AS innings_forfeited,
    (SELECT count(*) FROM matches WHERE reduced) AS targets_reduced
FROM deliveries
"""

# Each looks for one thing that is odd; a row is one example, as text.
ODD = {
    # An over that is not the innings' last and has not as many valid balls as an over has.
    "overs_of_odd_length": """
        SELECT match_id || ', innings ' || innings || ', over ' || over || ': ' || o.balls
            || CASE o.balls WHEN 1 THEN ' ball' ELSE ' balls' END || CASE
                WHEN list_contains(string_split(coalesce(i.miscounted, ''), ';'), over::VARCHAR)
                THEN ' (marked in the file)' ELSE '' END
        FROM (
            SELECT match_id, innings, over, count_if(legal) AS balls,
                max(over) OVER (PARTITION BY match_id, innings) AS last
            FROM deliveries GROUP BY match_id, innings, over
        ) o JOIN matches m USING (match_id) JOIN innings i USING (match_id, innings)
        WHERE over < last AND o.balls <> m.balls_per_over
        ORDER BY match_id, innings, over""",
    "innings_that_lack_overs": """
        SELECT match_id || ', innings ' || innings || ': ' || last - overs || ' of ' || last
        FROM (
            SELECT match_id, innings, max(over) AS last, count(DISTINCT over) AS overs
            FROM deliveries GROUP BY match_id, innings
        ) WHERE overs < last ORDER BY match_id, innings""",
    "matches_that_lack_an_innings": """
        SELECT match_id || ': ' || count(*) || ', of which the last is innings ' || max(innings)
        FROM innings GROUP BY match_id HAVING max(innings) > count(*) ORDER BY match_id""",
    "targets_that_disagree": """
        SELECT match_id || ': innings 2 was set ' || b.target_runs || ', innings 1 made '
            || a.runs || penalty_note(b.target_runs - 1, a.runs, a.runs - a.penalty, a.penalty)
        FROM innings a JOIN innings b USING (match_id) JOIN matches m USING (match_id)
        WHERE a.innings = 1 AND b.innings = 2
            AND m.method IS NULL AND NOT coalesce(m.reduced, false) AND b.target_runs <> a.runs + 1
        ORDER BY match_id""",
    "winners_that_disagree": """
        SELECT match_id || ': ' || winner || ' won; by the balls ' || by_balls
        FROM outcomes WHERE by_balls <> winner ORDER BY match_id""",
    "margins_that_disagree": """
        SELECT match_id || ': won by ' || margin || '; by the balls ' || difference
            || ' runs' || penalty_note(run_margin, difference, without_penalties, penalties)
        FROM outcomes
        WHERE by_balls = winner AND margin = run_margin || ' runs' AND run_margin <> difference
        ORDER BY match_id""",
    "one_name_several_people": """
        SELECT name || ' (' || gender || '): ' || string_agg(id, ', ' ORDER BY id)
        FROM (SELECT DISTINCT name, gender, id FROM people)
        GROUP BY name, gender HAVING count(*) > 1 ORDER BY 1""",
    "one_person_several_names": """
        SELECT id || ': ' || string_agg(name, ', ' ORDER BY name)
        FROM (SELECT DISTINCT id, name FROM people) GROUP BY id HAVING count(*) > 1 ORDER BY 1""",
    "one_name_on_both_sides": """
        SELECT match_id || ': ' || names_on_both_sides || ' under one id'
        FROM kept WHERE names_on_both_sides IS NOT NULL ORDER BY match_id""",
    "people_without_id": """
        SELECT DISTINCT id FROM people WHERE NOT registered ORDER BY id""",
    "sides_of_both_genders": """
        SELECT team || ': ' || string_agg(DISTINCT gender, ', ' ORDER BY gender)
        FROM people WHERE gender NOT IN ('', 'unknown') GROUP BY team
        HAVING count(DISTINCT gender) > 1 ORDER BY team""",
    "venues_in_several_cities": """
        SELECT venue || ': ' || string_agg(DISTINCT venue_city, ', ' ORDER BY venue_city)
        FROM matches WHERE venue IS NOT NULL
        GROUP BY venue HAVING count(DISTINCT venue_city) > 1 ORDER BY venue""",
    "people_without_id_of_both_genders": BOTH_GENDERS,
    "bowlers_of_several_styles": """
        SELECT called(id, coalesce(nullif(p.name, ''), n.name)) || ': ' || as_written
            || ' (counted as ' || style || ', also ' || second_style || ')'
        FROM players p JOIN (SELECT id, min(name) AS name FROM people GROUP BY id) n USING (id)
        WHERE second_style <> '' ORDER BY 1""",
    "matches_that_may_be_one": LIKELY,
    "target_overs_that_cannot_be_read": """
        SELECT i.match_id || ', innings ' || i.innings || ': ' || i.target_overs
        FROM kept_innings i JOIN targets t USING (match_id, innings)
        WHERE t.target_balls IS NULL ORDER BY 1""",
}

FORMATS = """
SELECT coalesce(match_type, 'unknown') || ': ' || count(*)
    || CASE count(*) WHEN 1 THEN ' match' ELSE ' matches' END
FROM matches
WHERE match_type IS NULL OR match_type NOT IN ({types})
GROUP BY match_type ORDER BY 1
"""

# Penalty runs to a side as a whole come by fives (MCC Laws of Cricket, 2017 Code: 41.18). A layout
# without them has totals that are short by so many; a file that has them may give a margin or a
# target that leaves them out.
PENALTY_NOTE = """
CREATE MACRO penalty_note(told, made, without, penalties) AS CASE
    WHEN penalties > 0 AND told = without
    THEN ' (right without the ' || penalties || ' penalty runs to an innings)'
    WHEN penalties = 0 AND abs(told - made) IN (5, 10)
    THEN ' (' || abs(told - made) || ' apart, as by penalty runs to an innings; none are recorded)'
    ELSE '' END
"""

# Who won by the balls, where the balls can say: won outright, no method of calculation, no forfeit.
OUTCOMES = """
CREATE TABLE outcomes AS
WITH totals AS (
    SELECT match_id, batting_team, sum(runs)::INT AS runs, sum(penalty)::INT AS penalty,
        bool_or(forfeited) AS forfeited
    FROM innings GROUP BY ALL
), sides AS (
    SELECT m.match_id, m.winner, m.margin, coalesce(a.runs, 0) AS runs_1,
        coalesce(b.runs, 0) AS runs_2, coalesce(a.penalty, 0) AS penalty_1,
        coalesce(b.penalty, 0) AS penalty_2, m.team_1, m.team_2,
        coalesce(a.forfeited, false) OR coalesce(b.forfeited, false) AS forfeited
    FROM matches m
    LEFT JOIN totals a ON a.match_id = m.match_id AND a.batting_team = m.team_1
    LEFT JOIN totals b ON b.match_id = m.match_id AND b.batting_team = m.team_2
    WHERE m.result = 'win' AND m.method IS NULL AND m.winner IS NOT NULL
        AND NOT coalesce(m.reduced, false)
        AND (SELECT count(*) FROM innings i WHERE i.match_id = m.match_id) > 1
)
SELECT match_id, winner, margin, try_cast(split_part(margin, ' ', 1) AS INT) AS run_margin,
    abs(runs_1 - runs_2) AS difference,
    abs(runs_1 - penalty_1 - runs_2 + penalty_2) AS without_penalties,
    penalty_1 + penalty_2 AS penalties,
    CASE WHEN runs_1 > runs_2 THEN team_1 WHEN runs_2 > runs_1 THEN team_2 ELSE 'nobody' END
        AS by_balls
FROM sides WHERE NOT forfeited
"""


def quality(
    db: duckdb.DuckDBPyConnection,
    match_types: set[str],
    sources: list[SourceReport],
    corrections: list[Fix],
) -> Quality:
    """The merged data's figures, beside what is known of the sources and the corrections.

    `match_types` are those that formats.yaml covers: no topic can use matches of another.
    """
    db.execute(OUTCOMES)
    db.execute(PENALTY_NOTE)
    db.execute(CALLED)
    row = db.execute(COUNTS)
    names = [column[0] for column in row.description]
    counts = dict(zip(names, map(int, row.fetchall()[0]), strict=True))
    counts["duplicates_dropped"] = counts["matches_read"] - counts["matches"]
    checked = {
        "winners": count(db, "SELECT count(*) FROM outcomes"),
        "targets": count(
            db,
            "SELECT count(*) FROM innings i JOIN matches m USING (match_id) WHERE i.innings = 2 "
            "AND i.target_runs IS NOT NULL AND m.method IS NULL AND NOT coalesce(m.reduced, false)",
        ),
        "winners_not_checked": count(
            db, "SELECT count(*) FROM matches WHERE match_id NOT IN (SELECT match_id FROM outcomes)"
        ),
    }
    odd = {name: _listed(db, query) for name, query in ODD.items()}
    outside = FORMATS.format(types=quoted_list(["", *sorted(match_types)]))
    odd |= {**unread_told(db), "venues_that_may_be_one_ground": _venues_alike(db)}
    return Quality(
        sources=sources,
        counts=counts,
        checked=checked,
        coverage=coverage(db),
        odd={
            **odd,
            "match_types_of_no_format": _listed(db, outside),
            **named_play(db, merged(source.odd for source in sources)),
        },
        corrections=corrections,
        called=names_of(db, ids_in(corrections)),
        duplicates=duplicates(db),
    )


def coverage(db: duckdb.DuckDBPyConnection) -> dict[str, float | None]:
    """Share of valid balls whose bowler's kind and arm, batter's hand and country are known."""
    known = ", ".join(f"count_if(d.legal AND {sql} <> 'unknown')" for sql in COVERED.values())
    *counts, balls = db.execute(
        f"SELECT {known}, count_if(d.legal) FROM deliveries d JOIN matches m USING (match_id)"
    ).fetchall()[0]
    return {n: k / balls if balls else None for n, k in zip(COVERED, counts, strict=True)}


def _venues_alike(db: duckdb.DuckDBPyConnection) -> Odd:
    alike = proposals(venues_met(db)).items()
    told = [f"{venue}: perhaps {p.ground}; {', '.join(p.same_as)}" for (venue, _), p in alike]
    return Odd(count=len(told), examples=told[:EXAMPLES])


def _listed(db: duckdb.DuckDBPyConnection, query: str) -> Odd:
    found = [row[0] for row in db.execute(query).fetchall()]
    return Odd(count=len(found), examples=found[:EXAMPLES])
