"""The matches of a topic, as far as time goes: their seasons and their days."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from itertools import groupby
from operator import attrgetter
from typing import NamedTuple

import duckdb

from pipeline.contracts.selection import Season
from pipeline.sql import quoted


class Played(NamedTuple):
    """A match: its season, its first day and its last."""

    season: str
    first: date
    last: date


def played(db: duckdb.DuckDBPyConnection, chosen: str, deliveries: str) -> list[Played]:
    """The chosen matches in order of time; one without a ball was not played.

    `deliveries` is the path of the clean table.
    """
    bowled = f"SELECT match_id FROM read_parquet({quoted(deliveries)})"
    query = f"SELECT season, date, last_day FROM {chosen} WHERE match_id IN ({bowled})"
    return [Played(*row) for row in db.execute(f"{query} ORDER BY 2, 1, 3").fetchall()]


def seasons_of(matches: Iterable[Played]) -> list[Season]:
    """Their seasons, in order of their first day: to the first day of their last match."""
    by_label = sorted(matches, key=attrgetter("season", "first"))
    found = []
    for label, group in groupby(by_label, key=attrgetter("season")):
        days = [match.first for match in group]
        found.append(Season(label=label, first=days[0], last=days[-1], matches=len(days)))
    return sorted(found, key=lambda one: (one.first, one.label))
