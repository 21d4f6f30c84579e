"""Who is who where no file gives an id: told by name and side, by gender only where need be.

An id holds nothing that is unknown, so that a gender which is given later moves nobody. Where one
name of one side is known as a woman's and as a man's, the two are told apart by their gender; what
is of neither known gender keeps the plain id.
"""

from __future__ import annotations

import re

import duckdb
import pyarrow as pa

from pipeline.sql import quoted_list

NOT_KNOWN = ("", "unknown")
GENDERS = ("female", "male", "unknown")
_OLD_FORM = re.compile(r"(?P<name>.+) \((?P<gender>[^,()]+), (?P<team>.+)\)")

# Ids without a file's own that are of both genders, and who each is then.
APART = f"""
CREATE TABLE apart AS
SELECT DISTINCT id, gender, name || ' (' || team || ', ' || gender || ')' AS own
FROM raw_people WHERE NOT registered AND gender IS NOT NULL
    AND gender NOT IN ({quoted_list(NOT_KNOWN)})
QUALIFY count(DISTINCT gender) OVER (PARTITION BY id) > 1
"""

BOTH_GENDERS = """
SELECT id || ': ' || string_agg(gender, ', ' ORDER BY gender) FROM apart
GROUP BY id ORDER BY id"""


def put_identities(
    db: duckdb.DuckDBPyConnection, same_as: dict[str, str], genders: set[str]
) -> None:
    """The tables `apart` and `merges`: an id of a match of a gender, and the id that it is.

    `same_as` are the researcher's merges; `genders` are those that corrections give to matches.
    Reads the views `raw_people` and `raw_matches`.
    """
    db.execute(APART)
    told = db.execute("SELECT id, gender, own FROM apart").fetchall()
    own = {(identity, gender): mine for identity, gender, mine in told}
    met = db.execute("SELECT DISTINCT gender FROM raw_matches WHERE gender IS NOT NULL").fetchall()
    every = sorted({*GENDERS, *genders, *(row[0] for row in met)})
    rows = {key: same_as.get(mine, mine) for key, mine in own.items()}
    for identity, same in same_as.items():  # onto a name of two people: that of the same gender
        rows |= {
            (identity, g): rows.get((same, g), same) for g in every if (identity, g) not in own
        }
    table = {
        "id": pa.array([key[0] for key in rows], pa.string()),
        "gender": pa.array([key[1] for key in rows], pa.string()),
        "same_as": pa.array(list(rows.values()), pa.string()),
    }
    db.register("given", pa.table(table))
    db.execute("CREATE TABLE merges AS SELECT * FROM given ORDER BY id, gender")
    db.unregister("given")


def all_ids(db: duckdb.DuckDBPyConnection) -> set[str]:
    """Every id that somebody in the data has, before people are merged."""
    query = "SELECT id FROM raw_people UNION SELECT own FROM apart"
    return {row[0] for row in db.execute(query).fetchall()}


def of_today(identity: str, there: set[str]) -> str | None:
    """The id that stands for one of the older form 'A Bowler (female, Quillport)', if it is there.

    Such ids held the gender whether it was known or not.
    """
    found = _OLD_FORM.fullmatch(identity)
    if not found or identity in there:
        return None
    name, gender, team = found["name"], found["gender"], found["team"]
    for today in (f"{name} ({team}, {gender})", f"{name} ({team})"):
        if today in there:
            return today
    return None
