"""Sums of batters, bowlers and sides: for the error of a difference of groups made of them.

A row a cluster, group, cell and measure, over all matches; grounds and periods need none, since the
tallies say which of them a match is of.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import duckdb
import pyarrow as pa
import pyarrow.compute as pc

from pipeline.config.level_of import OF_BALLS, adds_up, level_of
from pipeline.database import connect
from pipeline.metrics.cells import with_cells
from pipeline.metrics.clauses import column_of
from pipeline.metrics.named_players import read_people, with_people
from pipeline.metrics.query import BeatQuery, Tables, beat_query
from pipeline.tables import CLUSTERS

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.views import MetricsView
    from pipeline.contracts.selection import Person


def cluster_sums(view: MetricsView, tables: Tables) -> pa.Table:
    """Those of every beat of two groups that are made of batters, bowlers or sides."""
    if not any(map(_asked, view.beats)):
        return CLUSTERS.empty_table()
    db = connect()
    people = read_people(db, tables["players"])
    view = view.model_copy(update={"beats": with_people(view, people)})
    parts = [
        part
        for beat in view.beats
        if _asked(beat)
        for part in _of_beat(db, beat, view, tables, people)
    ]
    return pa.concat_tables([CLUSTERS.empty_table(), *parts])


def _asked(beat: AnyKind) -> bool:
    level = level_of(beat)
    return beat.traits.compares == "groups" and level is not None and level in OF_BALLS


def _of_beat(
    db: duckdb.DuckDBPyConnection,
    beat: AnyKind,
    view: MetricsView,
    tables: Tables,
    people: list[Person],
) -> list[pa.Table]:
    """A table a measure whose sums add up to those of the matches."""
    level = level_of(beat)
    if level is None:
        return []
    query = beat_query(beat, view, None, tables, cluster=OF_BALLS[level])
    wide, _ = with_cells(db.sql(_over_matches(query)).to_arrow_table(), query, beat, view, people)
    measures = (view.measures[name] for name in query.measures)
    return [
        _long(wide, beat.id, at, name)
        for at, (name, sums) in enumerate(zip(query.measures, measures, strict=True))
        if adds_up(level, sums.numerator, sums.denominator)
    ]


def _over_matches(query: BeatQuery) -> str:
    """The beat's query, its matches added up."""
    sums = [
        f"sum({name}{at})::BIGINT AS {name}{at}"
        for at in range(len(query.measures))
        for name in ("y", "x")
    ]
    columns = ", ".join(['"window"', "cluster", *map(column_of, query.cuts), "masked", *sums])
    return f"SELECT {columns} FROM ({query.text}) GROUP BY ALL ORDER BY ALL"


def _long(wide: pa.Table, beat: str, at: int, measure: str) -> pa.Table:
    """The rows of one measure; a cluster that nothing is counted of is none."""
    y, x = wide[f"y{at}"], wide[f"x{at}"]
    table = pa.table(
        {
            "beat": pa.array([beat] * wide.num_rows),
            "measure": pa.array([measure] * wide.num_rows),
            **{name: wide[name] for name in ("cell", "window", "cluster")},
            "y": y,
            "x": x,
        }
    )
    return table.filter(pc.or_(pc.not_equal(y, 0), pc.not_equal(x, 0))).cast(CLUSTERS)
