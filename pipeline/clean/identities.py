"""Who is who where no file gives an id: told by name and side, by gender only where need be.

An id holds nothing that is unknown, so that a gender which is given later moves nobody. Where one
name of one side is known as a woman's and as a man's, the two are told apart by their gender; what
is of neither known gender keeps the plain id. Genders are those of the matches that were kept, as
they are corrected: what a file had wrong, or a copy that was dropped says, parts nobody.
"""

from __future__ import annotations

import re
from typing import NamedTuple

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
FROM met_people WHERE NOT registered AND gender IS NOT NULL
    AND gender NOT IN ({quoted_list(NOT_KNOWN)})
QUALIFY count(DISTINCT gender) OVER (PARTITION BY id) > 1
"""

BOTH_GENDERS = """
SELECT id || ': ' || string_agg(gender, ', ' ORDER BY gender) FROM apart
GROUP BY id ORDER BY id"""


class Round(NamedTuple):
    """An id that leads round in a circle in matches of a gender, and the ids on the way."""

    id: str
    gender: str
    way: list[str]


def put_identities(db: duckdb.DuckDBPyConnection, same_as: dict[str, str]) -> list[Round]:
    """The tables `apart` and `merges`: an id of a match of a gender, and the id that it is.

    `same_as` are the researcher's merges, a step each: they are followed to their end, gender by
    gender, since who is merged onto a name of two people is the one of the same gender. Gives those
    that have no end. Reads `met_people` and `kept`.
    """
    db.execute(APART)
    told = db.execute("SELECT id, gender, own FROM apart").fetchall()
    own = {(identity, gender): mine for identity, gender, mine in told}
    met = db.execute("SELECT gender FROM kept UNION SELECT gender FROM met_people").fetchall()
    every = sorted({*GENDERS, *(row[0] for row in met if row[0])})
    rows, circles = dict[tuple[str, str], str](), list[Round]()
    for identity in dict.fromkeys([*(key[0] for key in own), *same_as]):
        for gender in every:
            way = _way(identity, gender, own, same_as)
            if way.count(way[-1]) > 1:
                circles.append(Round(identity, gender, way))
            elif way[-1] != identity:
                rows[identity, gender] = way[-1]
    table = {
        "id": pa.array([key[0] for key in rows], pa.string()),
        "gender": pa.array([key[1] for key in rows], pa.string()),
        "same_as": pa.array(list(rows.values()), pa.string()),
    }
    db.register("given", pa.table(table))
    db.execute("CREATE TABLE merges AS SELECT * FROM given ORDER BY id, gender")
    db.unregister("given")
    return circles


def _way(
    identity: str, gender: str, own: dict[tuple[str, str], str], same_as: dict[str, str]
) -> list[str]:
    """The ids from one to the one that it is; it ends at the first that it comes to again."""
    way = dict.fromkeys([own.get((identity, gender), identity)])
    while (step := same_as.get(next(reversed(way)))) is not None:
        step = own.get((step, gender), step)
        if step in way:
            return [*way, step]
        way[step] = None
    return list(way)


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
