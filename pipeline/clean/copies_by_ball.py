"""Copies of one match held against each other delivery by delivery."""

from __future__ import annotations

from collections import defaultdict

import duckdb

from pipeline.clean.people import GENDER
from pipeline.contracts.quality import Differs

ROLES = ("batter", "non_striker", "bowler", "player_out")
FACTS = (
    *("runs_batter", "wides", "noballs", "byes", "legbyes", "penalty"),
    *("non_boundary", "delivered", "dismissal"),
)
SIDES = ("batting_team", "bowling_team")
FIELDS = (*ROLES, *FACTS, *SIDES)
OVER = "over, deliveries"
OF_DELIVERY = "delivery, "  # before its fields
NO_NAME = "('', 'unknown', 'not recorded')"

# Copies that were dropped, each beside the one that was kept.
TWICE = """
CREATE OR REPLACE TEMP TABLE twice AS
SELECT m.match_id, k.source AS kept_source, m.source
FROM raw_matches m JOIN kept k USING (match_id) WHERE m.source <> k.source
"""

# What each source calls its people: the id after merges, and a name in plain letters.
CALLED = f"""
CREATE OR REPLACE TEMP TABLE called AS
SELECT k.source, k.id, min(coalesce(m.same_as, k.id)) AS who, min(k.name) AS name,
    min(strip_accents(lower(trim(k.name)))) AS plain
FROM raw_people k LEFT JOIN merges m ON m.id = k.id AND m.gender = {GENDER}
GROUP BY k.source, k.id
"""


def _named(role: str) -> str:
    columns = {"": "name", "_who": "who", "_plain": "plain"}
    return ", ".join(
        f"coalesce({role}.{column}, d.{role}_id) AS {role}{end}" for end, column in columns.items()
    )


# `bowled` counts the over's deliveries: the places of two overs of other counts are no pairs.
BALLS = f"""
CREATE OR REPLACE TEMP TABLE copied AS
SELECT d.match_id, d.source, d.innings, d.over, d.delivery, {", ".join(FACTS + SIDES)},
    {", ".join(map(_named, ROLES))},
    count(*) OVER (PARTITION BY d.match_id, d.source, d.innings, d.over) AS bowled
FROM raw_deliveries d
{" ".join(f"LEFT JOIN called {r} ON {r}.source = d.source AND {r}.id = d.{r}_id" for r in ROLES)}
WHERE d.match_id IN (SELECT match_id FROM twice)
"""


def _differs(field: str) -> str:
    """Whether the two say otherwise: of a player neither the id nor the name is the same."""
    if field not in ROLES:
        return f"k.{field} IS DISTINCT FROM d.{field}"
    other = [f"k.{field}{end} IS DISTINCT FROM d.{field}{end}" for end in ("_who", "_plain")]
    told = [f"coalesce({side}.{field}_plain, '-') NOT IN {NO_NAME}" for side in "kd"]
    return " AND ".join([*other, *told])


def _asked(field: str) -> str:
    """How many differ, and what the first of them says, each with its place."""
    first = f"min({{'i': k.innings, 'o': k.over, 'b': k.delivery, 'k': k.{field}, 'd': d.{field}}})"
    return f"count_if({_differs(field)}), {first} FILTER ({_differs(field)})"


PAIRS = f"""
SELECT t.match_id, t.source, {", ".join(map(_asked, FIELDS))}
FROM twice t
JOIN copied k ON k.match_id = t.match_id AND k.source = t.kept_source
JOIN copied d ON d.match_id = t.match_id AND d.source = t.source
    AND d.innings = k.innings AND d.over = k.over AND d.delivery = k.delivery
WHERE k.bowled = d.bowled
GROUP BY ALL
"""

OVERS = """
WITH overs AS (SELECT DISTINCT match_id, source, innings, over, bowled FROM copied)
SELECT t.match_id, t.source, count(*),
    min({'i': k.innings, 'o': k.over, 'k': k.bowled, 'd': d.bowled})
FROM twice t
JOIN overs k ON k.match_id = t.match_id AND k.source = t.kept_source
JOIN overs d ON d.match_id = t.match_id AND d.source = t.source
    AND d.innings = k.innings AND d.over = k.over
WHERE k.bowled <> d.bowled
GROUP BY ALL
"""


def by_ball(db: duckdb.DuckDBPyConnection) -> dict[tuple[str, str], list[Differs]]:
    """By match and source of a dropped copy: the fields of its deliveries that differ.

    Deliveries are told apart by innings, over and place in it, where both copies have as many in
    that over; overs that do not are counted. Reads the raw tables, `kept` and `merges`.
    """
    for statement in (TWICE, CALLED, BALLS):
        db.execute(statement)
    found: dict[tuple[str, str], list[Differs]] = defaultdict(list)
    for match, source, *asked in db.execute(PAIRS).fetchall():
        for field, count, first in zip(FIELDS, asked[::2], asked[1::2], strict=True):
            if count:
                place = f"{first['i']}, {first['o']}.{first['b']}"
                found[match, source].append(_told(OF_DELIVERY + field, count, place, first))
    for match, source, count, first in db.execute(OVERS).fetchall():
        found[match, source].append(_told(OVER, count, f"{first['i']}, {first['o']}", first))
    for table in ("twice", "called", "copied"):
        db.execute(f"DROP TABLE {table}")
    return found


def _told(field: str, count: int, place: str, first: dict[str, object]) -> Differs:
    """`place` is an innings and an over (and the delivery's place in it), both counted from 1."""
    kept, dropped = (_text(first[side]) for side in "kd")
    return Differs(field=field, kept=kept, dropped=dropped, times=count, first=f"innings {place}")


def _text(value: object) -> str:
    if value is None:
        return "none"
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)
