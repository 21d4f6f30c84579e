"""The parts of a beat's query: its conditions, its cuts, the rows it reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.config.cuts import CUTS
from pipeline.sql import quoted, quoted_list

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format
    from pipeline.config.selection import Selection
    from pipeline.config.topic import Data

UNKNOWN = "unknown"
# Cuts that are called as a column of matches is: one that every row has beside its cuts, or one
# that says something else (whose ground, which result) and that GROUP BY would take instead.
TAKEN = {"season", "ground", "home", "result"}

# What a wicket brings with it when it is told apart from the striker's ball.
_OF_THE_OUT = """(
    SELECT * REPLACE (0 AS wickets) FROM read_parquet({deliveries})
    UNION ALL BY NAME
    SELECT d.* REPLACE (
        o.player_out_id AS batter_id, o.hand AS batter_hand,
        o.batting_position AS batting_position, 1 AS wickets, 0 AS bowler_wickets,
        0 AS runs_batter, 0 AS runs_total, 0 AS runs_bowler, 0 AS wides, 0 AS noballs, 0 AS byes,
        0 AS legbyes, 0 AS penalty, false AS legal, false AS faced, false AS four, false AS six
    )
    FROM read_parquet({dismissals}) o
    JOIN read_parquet({deliveries}) d USING (match_id, innings, over, delivery)
    WHERE o.out
)"""


def data_filter(data: Data, form: Format) -> list[str]:
    """Conditions on matches that hold for the whole topic."""
    found = [
        f"m.match_type IN ({quoted_list(form.match_types)})",
        f"m.balls_per_over = {form.balls_per_over}",
    ]
    for key in ("competition", "source", "team_type"):
        if values := getattr(data, key):
            found.append(f"m.{key} IN ({quoted_list(values)})")
    if data.gender:
        found.append(f"m.gender = {quoted(data.gender)}")
    return found


def cut_sql(cut: str, form: Format, beat: AnyKind | None = None) -> str:
    """The expression of a cut; phases come from the format, bands from a phases beat."""
    if cut == "phase":
        ranges = {name: phase.overs for name, phase in form.phases.items()}
    elif cut == "band":
        listed = beat.ranges(form.overs) if beat else []
        ranges = {f"{first}-{last}": (first, last) for first, last in listed}
    else:
        return CUTS[cut].sql
    cases = " ".join(
        f"WHEN d.over BETWEEN {first} AND {last} THEN {quoted(name)}"
        for name, (first, last) in ranges.items()
    )
    return f"CASE {cases} ELSE '{UNKNOWN}' END"


def column_of(cut: str) -> str:
    """The name that a query's column of a cut has."""
    return f"by_{cut}" if cut in TAKEN else cut


def filters(where: Selection, form: Format) -> list[str]:
    """Conditions of a beat's `where`."""
    given = where.chosen()
    found = []
    if where.overs:
        first, last = where.overs
        found.append(f"d.over BETWEEN {first} AND {last}")
    for cut in CUTS:
        values = quoted_list(given[cut]) if cut in given else None
        if values and cut == "team":
            found.append(f"(m.team_1 IN ({values}) OR m.team_2 IN ({values}))")
        elif values:
            found.append(f"{cut_sql(cut, form)} IN ({values})")
    return found


def rows_from(tables: dict[str, str], outs_move: bool) -> str:
    """The deliveries; or the same with each wicket as a row of the player who was out."""
    paths = {name: quoted(path) for name, path in tables.items()}
    if not outs_move:
        return f"read_parquet({paths['deliveries']})"
    return _OF_THE_OUT.format(**paths)
