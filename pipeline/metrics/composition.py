"""What else the balls of a headline were of: sums by innings, with sides, ground and the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pyarrow as pa

from pipeline.database import connect
from pipeline.metrics.clauses import cut_sql, rows_from
from pipeline.metrics.named_players import read_people, with_people
from pipeline.metrics.query import Tables, balls_of, counted_only, outs_move, sum_sql
from pipeline.metrics.window_sql import in_either, window_sql
from pipeline.sql import quoted
from pipeline.tables import MIX

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.views import MetricsView
    from pipeline.contracts.selection import Cell, Selection
    from pipeline.contracts.timing import Windows

# What an innings is of; whether its match was decided, and not by whom, which play itself decides.
_OF_INNINGS = {
    "match_id": "m.match_id",
    "innings": "d.innings",
    "batting_team": "d.batting_team",
    "bowling_team": "d.bowling_team",
    "ground": "m.ground",
    "country": "m.country",
    "competition": "coalesce(m.competition, 'unknown')",
    "outcome": "CASE WHEN m.result = 'tie' THEN 'tied' "
    "WHEN m.winner IN (m.team_1, m.team_2) THEN 'decided' ELSE 'undecided' END",
}
_WITHIN = ("bowler_kind", "phase")  # what one innings has several of


def mix_of(view: MetricsView, tables: Tables, selection: Selection) -> pa.Table:
    """The rows of every headline of a kind of beat that is asked what else changed.

    `selection` is what was made of the same view and tables. A headline whose row is not there has
    none: the next stage names it.
    """
    db = connect()
    people = read_people(db, tables["players"])
    view = view.model_copy(update={"beats": with_people(view, people)})
    parts = [MIX.empty_table()]
    for beat in view.beats:
        windows = selection.timing_of(beat.about).windows
        if not beat.traits.composed or windows is None:
            continue
        cells = {cell.id: cell for cell in selection.beats[beat.id].cells}
        for measure, cell in _headlines(view, beat):
            if cell in cells:
                text = mix_query(beat, measure, cells[cell], view, windows, tables)
                parts.append(db.sql(text).to_arrow_table().select(MIX.names).cast(MIX))
    return pa.concat_tables(parts)


def _headlines(view: MetricsView, beat: AnyKind) -> list[tuple[str, str]]:
    """(measure, row) of every headline of the beat."""
    named = [headline.split(".", 2) for headline in view.headlines]
    return [(of, (row or ["all"])[0]) for name, of, *row in named if name == beat.id]


def mix_query(
    beat: AnyKind, measure: str, cell: Cell, view: MetricsView, windows: Windows, tables: Tables
) -> str:
    """The query of one row of a beat, of the matches in its two windows."""
    form, declared = view.format, view.measures[measure]
    _, conditions = balls_of(beat, view, windows)
    conditions += [f"({in_either(windows)})"]
    conditions += [
        f"{cut_sql(cut, form, beat)} = {quoted(value)}" for cut, value in cell.values.items()
    ]
    within = {cut: cut_sql(cut, form, beat) for cut in _WITHIN if _varies(beat, cell, cut, view)}
    named = {"window": window_sql(windows), **_OF_INNINGS}
    columns = [f'{sql} AS "{name}"' for name, sql in {**named, **within}.items()]
    columns += [f"NULL::VARCHAR AS {cut}" for cut in _WITHIN if cut not in within]
    labels = {"beat": beat.id, "measure": measure, "cell": cell.id}
    keys = ", ".join("m.match_id" if name == "match_id" else f'"{name}"' for name in named)
    sets = ", ".join([f"({keys})", *(f"({keys}, {cut})" for cut in within)])
    return "\n".join(
        [
            "SELECT " + ", ".join(f"{quoted(of)} AS {name}" for name, of in labels.items()) + ",",
            "    " + ",\n    ".join(columns) + ",",
            f"    {sum_sql(declared.numerator, counted_only(beat, form))} AS y,",
            f"    {sum_sql(declared.denominator)} AS x,",
            "    count_if(d.legal) AS balls",
            f"FROM {rows_from(tables, outs_move(beat, view))} d",
            f"JOIN read_parquet({quoted(tables['matches'])}) m USING (match_id)",
            "WHERE " + "\n    AND ".join(conditions),
            f"GROUP BY GROUPING SETS ({sets})",
            "ORDER BY ALL",
        ]
    )


def _varies(beat: AnyKind, cell: Cell, cut: str, view: MetricsView) -> bool:
    """Whether its balls may be of several values of the cut."""
    chosen = beat.where.chosen().get(cut, [])
    there = cut != "phase" or bool(view.format.phases)
    return there and cut not in cell.values and len(chosen) != 1
