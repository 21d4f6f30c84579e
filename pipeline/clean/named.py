"""People as the quality page calls them: by name, with the id that sheets are filled by."""

from __future__ import annotations

from itertools import zip_longest

import duckdb
import pyarrow as pa

from pipeline.contracts.quality import Odd, OddPlay
from pipeline.contracts.selection import Fix

# An id that is made of the name says it already.
CALLED = """
CREATE MACRO called(id, name) AS CASE
    WHEN name IS NULL OR name = '' OR name = id OR starts_with(id, name || ' (') THEN id
    ELSE name || ' (' || id || ')' END
"""

NAMES = """
SELECT id, called(id, min(name)) FROM (
    SELECT id, name FROM raw_people UNION ALL SELECT id, name FROM people
) SEMI JOIN asked USING (id) GROUP BY id
"""
OF_PEOPLE = ("player", "player_out")  # places of corrections


def names_of(db: duckdb.DuckDBPyConnection, ids: set[str]) -> dict[str, str]:
    """What some people are called, by id; who is nobody is left out.

    Reads `raw_people` and `people`: an id may be one that no file has.
    """
    db.register("asked", pa.table({"id": pa.array(sorted(ids), pa.string())}))
    names = dict(db.execute(NAMES).fetchall())
    db.unregister("asked")
    return names


def ids_in(corrections: list[Fix]) -> set[str]:
    """Everybody whom corrections name by id: in their places, or as what was and is."""
    found = {fix.place.get(name, "") for fix in corrections for name in OF_PEOPLE}
    found |= {t for fix in corrections if fix.field.endswith("_id") for t in (fix.old, fix.new)}
    return found - {""}


def named_play(db: duckdb.DuckDBPyConnection, odd: dict[str, OddPlay]) -> dict[str, Odd]:
    """What is odd in the play, with names where ingest had ids."""
    names = names_of(db, {one for each in odd.values() for who in each.who for one in who})
    return {kind: Odd(count=each.count, examples=_named(each, names)) for kind, each in odd.items()}


def _named(odd: OddPlay, names: dict[str, str]) -> list[str]:
    """Its examples, in which 'm1, innings 1: id-a' is 'm1, innings 1: A Batt (id-a)'."""
    told = []
    for said, who in zip_longest(odd.examples, odd.who, fillvalue=""):
        before, found, after = str(said).rpartition(": " + " and ".join(who))
        called = " and ".join(names.get(identity, identity) for identity in who)
        told.append(f"{before}: {called}{after}" if who and found else str(said))
    return told
