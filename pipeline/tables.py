"""Column contracts: what a table must hold, checked when written and when read."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq

from pipeline.errors import Problem, UserError, replacing, words_of
from pipeline.sql import quoted

_CODED = pa.dictionary(pa.int32(), pa.string())

# What a match file says of a delivery; `over` and `delivery` are 1-based.
RAW = pa.schema(
    [
        ("match_id", _CODED),
        ("innings", pa.int8()),
        ("over", pa.int16()),
        ("delivery", pa.int16()),
        ("batter_id", _CODED),
        ("non_striker_id", _CODED),
        ("bowler_id", _CODED),
        ("batting_team", _CODED),
        ("bowling_team", _CODED),
        ("runs_batter", pa.int16()),
        ("wides", pa.int16()),
        ("noballs", pa.int16()),
        ("byes", pa.int16()),
        ("legbyes", pa.int16()),
        ("penalty", pa.int16()),
        ("non_boundary", pa.bool_()),
        ("delivered", pa.bool_()),  # False: a wicket that fell before the ball was bowled (38.3)
    ]
)

# RAW, and what the Laws make of it.
DELIVERIES = pa.schema(
    [
        *RAW,
        ("legal", pa.bool_()),
        ("faced", pa.bool_()),
        ("runs_total", pa.int16()),
        ("runs_bowler", pa.int16()),
        ("four", pa.bool_()),
        ("six", pa.bool_()),
        ("wickets", pa.int16()),
        ("bowler_wickets", pa.int16()),
        ("dismissal", _CODED),
        ("player_out_id", _CODED),
    ]
)

DISMISSALS = pa.schema(
    [
        ("match_id", pa.string()),
        ("innings", pa.int8()),
        ("over", pa.int16()),
        ("delivery", pa.int16()),
        ("kind", pa.string()),
        ("player_out_id", pa.string()),
        ("out", pa.bool_()),
        ("bowler_credited", pa.bool_()),
    ]
)

MATCHES = pa.schema(
    [
        ("match_id", pa.string()),
        ("date", pa.date32()),
        ("last_day", pa.date32()),  # of a match of several days; that of one is its date
        ("season", pa.string()),
        ("competition", pa.string()),
        ("match_type", pa.string()),
        ("gender", pa.string()),
        ("team_type", pa.string()),
        ("venue", pa.string()),
        ("city", pa.string()),
        ("team_1", pa.string()),
        ("team_2", pa.string()),
        ("toss_winner", pa.string()),
        ("toss_decision", pa.string()),
        ("winner", pa.string()),
        ("margin", pa.string()),
        ("method", pa.string()),
        ("result", pa.string()),
        ("overs_limit", pa.int16()),
        ("balls_per_over", pa.int8()),
        ("target", pa.int16()),
        ("source", pa.string()),
        ("revision", pa.int32()),
        ("super_overs", pa.int8()),
        ("names_on_both_sides", pa.string()),
    ]
)

INNINGS = pa.schema(
    [
        ("match_id", pa.string()),
        ("innings", pa.int8()),
        ("batting_team", pa.string()),
        ("target_runs", pa.int16()),
        ("target_overs", pa.string()),
        ("penalty_pre", pa.int16()),
        ("penalty_post", pa.int16()),
        ("declared", pa.bool_()),
        ("forfeited", pa.bool_()),
        ("miscounted_overs", pa.int16()),
        ("miscounted", pa.string()),  # the overs that the file marks as such, "14;20"
    ]
)

# One row a match, window, cell and measure of a topic: the two sums, and the valid balls.
TALLIES = pa.schema(
    [
        *[(name, pa.string()) for name in ("beat", "measure", "cell", "window")],
        ("match_id", pa.string()),
        ("season", pa.string()),
        ("date", pa.date32()),
        ("ground", pa.string()),
        ("team_1", pa.string()),
        ("team_2", pa.string()),
        ("reduced", pa.bool_()),  # a chase with fewer overs than the match began with
        ("y", pa.int64()),
        ("x", pa.int64()),
        ("balls", pa.int64()),
    ]
)

# Of each headline that is a change: a row a match, window and innings, and the same divided once by
# kind of bowler and once by phase (none where a row is not divided by it). What else an innings is
# of stands beside its two sums, so that the windows can be asked for what else changed.
MIX = pa.schema(
    [
        *[(name, pa.string()) for name in ("beat", "measure", "cell", "window", "match_id")],
        ("innings", pa.int8()),
        *[(name, pa.string()) for name in ("batting_team", "bowling_team", "ground", "country")],
        *[(name, pa.string()) for name in ("competition", "outcome", "bowler_kind", "phase")],
        *[(name, pa.int64()) for name in ("y", "x", "balls")],
    ]
)

# One row a batter, bowler or side, of a group and cell of a measure: its two sums over all matches.
CLUSTERS = pa.schema(
    [
        *[(name, pa.string()) for name in ("beat", "measure", "cell", "window", "cluster")],
        ("y", pa.int64()),
        ("x", pa.int64()),
    ]
)

# One row a person, name and side as the files write them; `registered`: the file gave the id.
PEOPLE = pa.schema(
    [
        *[(name, pa.string()) for name in ("id", "name", "gender", "team")],
        ("registered", pa.bool_()),
    ]
)


# The clean tables that a topic's tallies are made of.
PLAYED = ("deliveries", "dismissals", "matches", "players")


def played(data: Path) -> dict[str, str]:
    """Their paths in the folder of clean tables."""
    return {name: str(data / f"{name}.parquet") for name in PLAYED}


def write_table(path: Path | str, table: pa.Table, schema: pa.Schema) -> None:
    """Write one Parquet file of exactly `schema`, beside its target and then renamed."""
    with replacing(path) as temporary:
        pq.write_table(table.select(schema.names).cast(schema), temporary, compression="zstd")


def write_parquet(db: Any, query: str, path: Path | str) -> None:
    """Write a DuckDB query's rows to Parquet in their order, beside the target, then renamed."""
    with replacing(path) as temporary:
        copy(db, query, temporary)


def copy(db: Any, query: str, path: Path) -> None:
    """Write a DuckDB query's rows to a Parquet file in their order."""
    db.execute(f"COPY ({query}) TO {quoted(path)} (FORMAT parquet, COMPRESSION zstd)")


def read_table(path: Path | str, schema: pa.Schema) -> pa.Table:
    """Read a Parquet file that must hold the columns of `schema`."""
    try:
        table = pq.read_table(path)
    except FileNotFoundError:
        raise UserError(Problem(str(path), "no such table; run the stage that writes it")) from None
    except (pa.ArrowException, OSError, ValueError) as error:
        raise UserError(Problem(str(path), f"not a Parquet table: {words_of(error)}")) from None
    missing = [name for name in schema.names if name not in table.column_names]
    if missing:
        message = f"the table lacks {', '.join(missing)}; run its stage again"
        raise UserError(Problem(str(path), message))
    return table
