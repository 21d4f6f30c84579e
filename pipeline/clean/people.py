"""Who is in the data: with the genders of the matches that were kept, and one id a person.

What files say of people (`raw_people`) is of all copies of a match, and of genders as they were
read. Where a copy was not kept, or the gender of a match is corrected, deliveries are asked who is
in which match; else they need not be.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import duckdb
import pyarrow as pa

from pipeline.clean.opened import kept_rows, put, run
from pipeline.sql import count

ENDS = ("batter_id", "non_striker_id", "bowler_id")
ROLES = (*ENDS, "player_out_id")  # as columns of the deliveries
OUT = ("player_out_id",)

# Which of the people of one id are meant (see `identities`): of a match whose gender is not known,
# those who are of none.
GENDER = "coalesce(nullif(k.gender, ''), 'unknown')"

AS_READ = "SELECT DISTINCT id, name, gender, team, registered FROM raw_people"

# Everybody in the matches whose gender was read otherwise than it is now, or in copies not kept.
DOUBTFUL = """
CREATE TABLE doubtful AS
WITH odd AS (
    SELECT match_id, source FROM dropped
    UNION ALL SELECT match_id, source FROM kept SEMI JOIN regendered USING (match_id)
), balls AS (
    SELECT batter_id, non_striker_id, bowler_id FROM raw_deliveries
    SEMI JOIN odd USING (match_id, source)
)
SELECT batter_id AS id FROM balls UNION SELECT non_striker_id FROM balls
UNION SELECT bowler_id FROM balls
UNION SELECT player_out_id FROM raw_dismissals SEMI JOIN odd USING (match_id, source)
"""

# In matches of which genders these are; {balls} and {outs} are what was kept.
SEEN = f"""
CREATE TABLE seen AS
SELECT DISTINCT id, {GENDER} AS gender FROM (
    SELECT match_id, batter_id AS id FROM ({{balls}})
    UNION SELECT match_id, non_striker_id FROM ({{balls}})
    UNION SELECT match_id, bowler_id FROM ({{balls}})
    UNION SELECT match_id, player_out_id FROM ({{outs}})
) SEMI JOIN doubtful USING (id) JOIN kept k USING (match_id)
"""

# Everybody; the doubtful ones with the genders that they were seen in: their own row of that gender
# or, where they have none, those of others. Who was seen nowhere has no row.
MET_PEOPLE = f"""
CREATE TABLE met_people AS
{AS_READ} ANTI JOIN doubtful USING (id)
UNION
SELECT r.id, r.name, s.gender, r.team, r.registered
FROM seen s JOIN raw_people r ON r.id = s.id
WHERE r.gender = s.gender OR NOT EXISTS (
    SELECT 1 FROM raw_people o WHERE o.id = s.id AND o.gender = s.gender
)
"""

PEOPLE = f"""
CREATE TABLE people AS
SELECT DISTINCT coalesce(m.same_as, k.id) AS id, k.name, k.gender, k.team, k.registered
FROM met_people k LEFT JOIN merges m ON m.id = k.id AND m.gender = {GENDER}
"""

# Of those whom corrections took off their deliveries: who stands on no other any more.
GONE = """
DELETE FROM people WHERE id IN (SELECT id FROM leaving) AND id NOT IN (
    SELECT batter_id FROM corrected UNION SELECT non_striker_id FROM corrected
    UNION SELECT bowler_id FROM corrected
    UNION SELECT player_out_id FROM fallen
        ANTI JOIN mended USING (match_id, innings, over, delivery)
    UNION SELECT player_out_id FROM fixed_dismissals
)
"""


def put_met_people(
    db: duckdb.DuckDBPyConnection, folders: dict[str, Path], regendered: Iterable[str]
) -> None:
    """The table `met_people`: everybody, with the genders of the matches that they are in.

    `regendered` are matches of which `kept` has another gender than was read.
    """
    given = pa.table({"match_id": pa.array(sorted(regendered), pa.string())})
    put(db, "regendered", given)
    if not given.num_rows and not count(db, "SELECT count(*) FROM dropped"):
        run(db, f"CREATE TABLE met_people AS {AS_READ}")
        return
    balls, outs = (kept_rows(db, folders, name) for name in ("deliveries", "dismissals"))
    run(db, DOUBTFUL, SEEN.format(balls=balls, outs=outs), MET_PEOPLE)


def put_people(db: duckdb.DuckDBPyConnection, folders: dict[str, Path]) -> None:
    """The people, and what they `played` and when they had `fallen`, under one id each.

    Reads `met_people`, `merges` and `kept`.
    """
    run(db, PEOPLE)
    for view, table, roles in (("played", "deliveries", ROLES), ("fallen", "dismissals", OUT)):
        rows = kept_rows(db, folders, table)
        if count(db, "SELECT count(*) FROM merges"):
            rows = _under_one_id(rows, roles)
        db.execute(f"CREATE VIEW {view} AS {rows}")


def _under_one_id(rows: str, roles: Iterable[str]) -> str:
    """A query's rows with its columns of ids as people are merged."""
    named = list(enumerate(roles))
    same = ", ".join(f"coalesce(m{i}.same_as, d.{name}) AS {name}" for i, name in named)
    joins = " ".join(
        f"LEFT JOIN merges m{i} ON m{i}.id = d.{name} AND m{i}.gender = {GENDER}"
        for i, name in named
    )
    return f"SELECT d.* REPLACE ({same}) FROM ({rows}) d JOIN kept k USING (match_id) {joins}"


def take_away(db: duckdb.DuckDBPyConnection, leaving: Iterable[str]) -> None:
    """Out of `people` goes who stands on no delivery, of those whom corrections took off some."""
    ids = pa.table({"id": pa.array(sorted(leaving), pa.string())})
    if ids.num_rows:
        put(db, "leaving", ids)
        run(db, GONE)
