"""What the clean tables hold that a new topic may ask about."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import duckdb

from pipeline.errors import Problem, UserError
from pipeline.sql import quoted, quoted_list


class Held(NamedTuple):
    """A value of the data, and how many matches have it."""

    value: str
    matches: int


def matches_table(output: Path) -> Path:
    """The table of matches. Raises UserError where the data are not read yet."""
    path = output / "data" / "matches.parquet"
    if not path.exists():
        raise UserError(Problem(str(path), "the data are not read yet; run make brief first"))
    return path


def held(matches: Path, column: str, among: Mapping[str, Sequence[str]]) -> list[Held]:
    """The values of a column, the most matches first, of the matches that `among` leaves.

    `among` has the values to keep of other columns; no values at all keep every match.
    """
    kept = [f"{name} IN ({quoted_list(values)})" for name, values in among.items() if values]
    where = " AND ".join([f"{column} IS NOT NULL", *kept])
    query = (
        f"SELECT {column}, count(*) AS matches FROM read_parquet({quoted(str(matches))}) "
        f"WHERE {where} GROUP BY ALL ORDER BY matches DESC, {column}"
    )
    return [Held(str(value), count) for value, count in duckdb.connect().sql(query).fetchall()]
