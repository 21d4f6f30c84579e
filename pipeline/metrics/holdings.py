"""What a topic's data hold: matches, balls, what is known of them, and which fixes touch them."""

from __future__ import annotations

from typing import Any

import duckdb
import pyarrow as pa

from pipeline.calendar import as_day
from pipeline.config.cuts import COVERED
from pipeline.contracts.selection import Amount, Fix, Holdings, Newcomers
from pipeline.contracts.timing import Windows
from pipeline.metrics.window_sql import in_window
from pipeline.sql import quoted


def describe(
    db: duckdb.DuckDBPyConnection,
    deliveries: str,
    chosen: str,
    leaning: list[str],
    compared: str,
    counted: str,
) -> Holdings:
    """Matches, valid balls, dates, reduced targets, and balls of unknown kind, hand and so on.

    Only of what is leant on: a topic that asks for no hand is not made again when one is filled in.
    `compared` and `counted` are conditions of the balls that the beats compare, and that they read.
    """
    # Conditions once a ball, then by match: to count the matches apart in one go takes three times
    # as long.
    row = db.execute(
        f"""
        WITH balls AS (
            SELECT match_id, d.legal, {compared} AS compared,
                {counted} AS counted{_unknown(leaning)}
            FROM read_parquet({quoted(deliveries)}) d JOIN {chosen} m USING (match_id)
        ), by_match AS (
            SELECT match_id, {_count("legal")} AS legal,
                {_unknown_of_match(leaning)}
                {_of_match("compared")}, {_of_match("counted")}
            FROM balls GROUP BY match_id
        )
        SELECT count(*), coalesce(sum(legal), 0), min(m.date), max(m.date),
            {_count("m.reduced")},
            {"".join(f"coalesce(sum(no_{name}), 0), " for name in leaning)}
            {_amount("compared")}, {_amount("counted")}
        FROM by_match JOIN {chosen} m USING (match_id)
        """
    ).fetchall()[0]
    return Holdings(
        matches=row[0],
        balls=int(row[1]),
        first=as_day(row[2]),
        last=as_day(row[3]),
        targets_reduced=row[4],
        unknown_balls=dict(zip(leaning, map(int, row[5:-8]), strict=True)),
        compared=_as_amount(*row[-8:-4]),
        counted=_as_amount(*row[-4:]),
    )


def _unknown(leaning: list[str]) -> str:
    """A column a cut that is leant on: whether it is not known of a ball."""
    return "".join(f", {COVERED[name]} = 'unknown' AS no_{name}" for name in leaning)


def _unknown_of_match(leaning: list[str]) -> str:
    """The same counted, of a match."""
    return "".join(f"{_count(f'legal AND no_{name}')} AS no_{name}, " for name in leaning)


def _count(condition: str) -> str:
    """How many meet it; nought where it is known of none."""
    return f"coalesce(count_if({condition}), 0)"


def _of_match(condition: str) -> str:
    """Whether any ball of a match meets a condition, and how many valid ones do."""
    return (
        f"coalesce(bool_or({condition}), false) AS {condition}, "
        f"{_count(f'legal AND {condition}')} AS {condition}_balls"
    )


def _amount(condition: str) -> str:
    """Matches, valid balls, first and last day of the matches with balls that meet a condition."""
    return (
        f"{_count(condition)}, coalesce(sum({condition}_balls), 0), "
        f"min(m.date) FILTER ({condition}), max(m.date) FILTER ({condition})"
    )


def _as_amount(matches: int, balls: Any, first: Any, last: Any) -> Amount | None:
    """None of no match at all."""
    if not matches:
        return None
    return Amount(matches=matches, balls=int(balls), first=as_day(first), last=as_day(last))


def sources_of(db: duckdb.DuckDBPyConnection, tallies: pa.Table, matches: str) -> list[str]:
    """The sources of the matches that anything was counted in."""
    db.register("counted", tallies.select(["match_id"]))
    query = f"SELECT DISTINCT source FROM read_parquet({quoted(matches)}) "
    return sorted(_all(db, f"{query} WHERE match_id IN (SELECT match_id FROM counted)"))


def newcomers(db: duckdb.DuckDBPyConnection, chosen: str, windows: Windows) -> Newcomers:
    """Matches of the window after, and how many of them are of a side not seen in the one before.

    Another opposition is another game: a change may be theirs.
    """
    before, after = in_window(windows.before), in_window(windows.after)
    seen = f"SELECT unnest([team_1, team_2]) FROM {chosen} m WHERE {before}"
    row = db.execute(
        f"SELECT count(*), count_if(team_1 NOT IN ({seen}) OR team_2 NOT IN ({seen})) "
        f"FROM {chosen} m WHERE {after}"
    ).fetchall()[0]
    return Newcomers(matches=row[0], of_new_sides=row[1])


def touching(
    db: duckdb.DuckDBPyConnection, corrections: list[Fix], deliveries: str, chosen: str
) -> list[Fix]:
    """The corrections that touch the topic: its matches, its players, its grounds."""
    if not corrections:
        return []
    there = {
        "match": _all(db, f"SELECT match_id FROM {chosen}"),
        "venue": _all(db, f"SELECT venue FROM {chosen}"),
        "player": _all(
            db,
            f"SELECT unnest([d.batter_id, d.non_striker_id, d.bowler_id]) "
            f"FROM read_parquet({quoted(deliveries)}) d JOIN {chosen} USING (match_id)",
        ),
    }
    return [
        fix
        for fix in corrections
        if all(value in there[name] for name, value in fix.place.items() if name in there)
    ]


def _all(db: duckdb.DuckDBPyConnection, query: str) -> set[str]:
    return {row[0] for row in db.execute(f"SELECT DISTINCT * FROM ({query})").fetchall()}
