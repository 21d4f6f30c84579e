"""What was played, season by season and competition by competition: what a topic may be of."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import duckdb

from pipeline.sql import quoted

PLAYED = """
SELECT coalesce(m.source, '') AS source, m.competition, m.gender, m.match_type, m.season,
    min(m.date)::VARCHAR AS first, max(m.date)::VARCHAR AS last, count(*) AS matches,
    coalesce(sum(d.balls), 0)::BIGINT AS balls, coalesce(sum(d.spin), 0)::BIGINT AS spin,
    coalesce(sum(d.pace), 0)::BIGINT AS pace, coalesce(sum(d.second), 0)::BIGINT AS second
FROM read_parquet({matches}) m LEFT JOIN (
    SELECT match_id, count_if(legal) AS balls, count_if(legal AND bowler_kind = 'spin') AS spin,
        count_if(legal AND bowler_kind = 'pace') AS pace, count_if(legal AND innings = 2) AS second
    FROM read_parquet({deliveries}) GROUP BY match_id
) d USING (match_id)
GROUP BY 1, 2, 3, 4, 5 ORDER BY first, 2, 4, 3, 1, 5
"""


class Played(NamedTuple):
    """The matches of one type, source and gender that a competition played in a season.

    `first` and `last` are days; `spin` and `pace` the valid balls of bowlers of that kind, `second`
    those of second innings.
    """

    source: str
    competition: str
    gender: str
    match_type: str
    season: str
    first: str
    last: str
    matches: int
    balls: int = 0
    spin: int = 0
    pace: int = 0
    second: int = 0


def played(matches: Path) -> list[Played]:
    """In the order of their first matches; the deliveries' table stands beside that of matches."""
    tables = {"matches": matches, "deliveries": matches.with_name("deliveries.parquet")}
    query = PLAYED.format(**{name: quoted(str(path)) for name, path in tables.items()})
    return [Played(*row) for row in duckdb.connect().sql(query).fetchall()]
