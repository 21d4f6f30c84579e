"""Running a topic's queries and keeping what they were."""

from __future__ import annotations

from typing import TYPE_CHECKING

import duckdb
import msgspec
import pyarrow as pa
import pyarrow.compute as pc

from pipeline.config.cuts import CUTS, leant_on
from pipeline.contracts.selection import (
    BeatSelection,
    Cell,
    ControlSelection,
    Fix,
    Person,
    Season,
    Selection,
    Windows,
)
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.metrics.cells import with_cells
from pipeline.metrics.clauses import cut_sql, data_filter
from pipeline.metrics.control import control_beat, control_data, matched
from pipeline.metrics.holdings import describe, newcomers, touching
from pipeline.metrics.named_players import read_people, with_people
from pipeline.metrics.query import Tables, beat_query
from pipeline.metrics.windows import choose_windows
from pipeline.sql import quoted
from pipeline.tables import TALLIES

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind, Control
    from pipeline.config.project import Format
    from pipeline.config.views import MetricsView


def tally(view: MetricsView, tables: Tables, corrections: list[Fix]) -> tuple[pa.Table, Selection]:
    """All tallies of a topic, and the selection: windows, cells, queries, what the data hold.

    `tables` are the paths of deliveries, dismissals, matches and players. `corrections` are all
    that were applied; the selection keeps those that touch the topic's balls.
    """
    db = duckdb.connect()
    deliveries, matches = tables["deliveries"], tables["matches"]
    chosen = _chosen_matches(db, view, matches)
    people = read_people(db, tables["players"])
    view = view.model_copy(update={"beats": with_people(view, people)})
    _check_filters(db, view, deliveries, chosen)
    _check_sides(db, view, chosen)
    seasons = _seasons(db, chosen)
    windows = choose_windows(seasons, view.event, view.file) if view.event else None
    parts: list[pa.Table] = []
    beats = {}
    for beat in view.beats:
        made, about = _one_beat(db, beat, view, windows, tables, people)
        if beat.held_against:
            more, control = _controlled(
                db, beat, beat.held_against, view, windows, tables, about.cells
            )
            made += more
            about = msgspec.structs.replace(about, control=control)
        parts += made
        beats[beat.id] = about
    selection = Selection(
        data=describe(db, deliveries, chosen, leant_on(view.beats)),
        corrections=touching(db, corrections, deliveries, chosen),
        seasons=seasons,
        windows=windows,
        newcomers=newcomers(db, chosen, windows) if windows else None,
        beats=beats,
    )
    return pa.concat_tables(parts).cast(TALLIES), selection


def _one_beat(
    db: duckdb.DuckDBPyConnection,
    beat: AnyKind,
    view: MetricsView,
    windows: Windows | None,
    tables: Tables,
    people: list[Person],
) -> tuple[list[pa.Table], BeatSelection]:
    """(the beat's tallies, one table a measure; its query and cells)."""
    query = beat_query(beat, view, windows, tables)
    wide = db.sql(query.text).to_arrow_table()
    if not wide.num_rows:
        message = f"beat '{beat.id}': its filters leave no balls; widen 'where'"
        raise UserError(Problem(view.file, message))
    wide, cells = with_cells(wide, query, beat, view, people)
    made = [_long(wide, beat.id, i, name) for i, name in enumerate(query.measures)]
    there = {cell.person for cell in cells}
    named = {person.id: person for person in people if person.id in there}
    return made, BeatSelection(query=query.text, cells=cells, people=named)


def _controlled(
    db: duckdb.DuckDBPyConnection,
    beat: AnyKind,
    control: Control,
    view: MetricsView,
    windows: Windows | None,
    tables: Tables,
    cells: list[Cell],
) -> tuple[list[pa.Table], ControlSelection]:
    """The tallies of a beat's control, in windows of their own, and which cell answers to which."""
    inner = view.model_copy(update={"data": control_data(view.data, control)})
    if control.competition and view.event:
        chosen = _chosen_matches(db, inner, tables["matches"])
        event = view.event.model_copy(update={"trend_from": None})
        windows = choose_windows(_seasons(db, chosen), event, view.file)
    made, about = _one_beat(db, control_beat(beat, control), inner, windows, tables, [])
    if beat.traits.compares == "series":
        made = [_in_windows(table, windows) for table in made]
    made = [_renamed(table) for table in made]
    pairs = matched(beat, control, cells, about.cells, view.file)
    return made, ControlSelection(name=control.name, query=about.query, pairs=pairs)


def _in_windows(table: pa.Table, windows: Windows | None) -> pa.Table:
    """A trend's seasons as the windows they are in; all are outside where there is no event."""
    side = dict.fromkeys(windows.before, "before") if windows else {}
    side |= dict.fromkeys(windows.after, "after") if windows else {}
    named = [side.get(season, "outside") for season in table["season"].to_pylist()]
    return table.set_column(table.column_names.index("window"), "window", pa.array(named))


def _renamed(table: pa.Table) -> pa.Table:
    """'before' as 'control before', so that no beat's own rows are mixed with its control's."""
    named = pc.binary_join_element_wise("control", table["window"], " ")
    return table.set_column(table.column_names.index("window"), "window", named)


def _chosen_matches(db: duckdb.DuckDBPyConnection, view: MetricsView, matches: str) -> str:
    """The topic's matches as a subquery; leaving none is an error that says what there is."""
    conditions = data_filter(view.data, view.format)
    source = f"read_parquet({quoted(matches)}) m"
    chosen = f"(SELECT * FROM {source} WHERE {' AND '.join(conditions)})"
    if db.execute(f"SELECT count(*) FROM {chosen}").fetchall()[0][0]:
        return chosen
    for key in ("competition", "gender", "team_type", "source"):
        asked = getattr(view.data, key)
        there = _distinct(db, f"m.{key}", source)
        for value in asked if isinstance(asked, list) else [asked] if asked else []:
            if value not in there:
                message = f"the topic's filters leave no matches: {key} '{value}' isn't in the data"
                raise UserError(Problem(view.file, f"{message}; it has: {', '.join(there)}"))
    types = ", ".join(_distinct(db, "m.match_type", source))
    wanted = ", ".join(view.format.match_types)
    message = (
        f"the topic's filters leave no matches: the format asks for match type {wanted} with "
        f"{view.format.balls_per_over} balls an over; the data have {types}"
    )
    raise UserError(Problem(view.file, message))


def _distinct(db: duckdb.DuckDBPyConnection, expression: str, source: str) -> list[str]:
    rows = db.execute(f"SELECT DISTINCT {expression}::VARCHAR AS v FROM {source} ORDER BY v")
    return [value for (value,) in rows.fetchall() if value is not None]


# Cuts whose values are checked elsewhere: by the topic's model, or as people.
CHECKED = ("overs", "phase", "bowler", "batter", "bowler_tag", "batter_tag")


def _check_filters(
    db: duckdb.DuckDBPyConnection, view: MetricsView, deliveries: str, chosen: str
) -> None:
    """Values of open cuts (grounds, teams, seasons) must occur in the topic's data."""
    problems = []
    source = f"read_parquet({quoted(deliveries)}) d JOIN {chosen} m USING (match_id)"
    for beat in view.beats:
        groups = {beat.groups[0]: list(beat.groups[1:])} if beat.groups else {}
        for cut, values in {**beat.where.chosen(), **groups, **beat.counted}.items():
            if cut in CHECKED or CUTS[cut].values:
                continue
            there = _there(db, cut, view.format, source, chosen)
            for value in values:
                if value not in there:
                    message = f"beat '{beat.id}': {CUTS[cut].name} '{value}' isn't in the data"
                    hint = did_you_mean(value, there)
                    problems.append(Problem(view.file, f"{message}{hint}"))
    if problems:
        raise UserError(problems)


def _there(
    db: duckdb.DuckDBPyConnection, cut: str, form: Format, source: str, chosen: str
) -> list[str]:
    """The values that an open cut has in the topic's data."""
    if cut == "team":
        return _distinct(db, "unnest([m.team_1, m.team_2])", f"{chosen} m")
    place = source if CUTS[cut].sql.startswith("d.") else f"{chosen} m"
    return _distinct(db, cut_sql(cut, form), place)


def _check_sides(db: duckdb.DuckDBPyConnection, view: MetricsView, chosen: str) -> None:
    """Women's and men's sides bear one name: cut by side, they would be added together unseen."""
    sides = {"batting_team", "bowling_team", "team"}
    asked = [beat.id for beat in view.beats if sides & set(beat.touched())]
    if asked and len(there := _distinct(db, "m.gender", f"{chosen} m")) > 1:
        message = (
            f"beat '{asked[0]}' divides by side, and the data hold {' and '.join(there)} cricket"
        )
        raise UserError(Problem(view.file, f"{message}: set data.gender, since sides share names"))


def _seasons(db: duckdb.DuckDBPyConnection, chosen: str) -> list[Season]:
    """The seasons of the chosen matches, in order of their first day."""
    rows = db.execute(
        f"SELECT season, min(date), max(date), count(*) FROM {chosen} GROUP BY season ORDER BY 2, 1"
    ).fetchall()
    return [
        Season(label=label, first=first, last=last, matches=count)
        for label, first, last, count in rows
    ]


KEPT = ("cell", "window", "match_id", "season", "date", "ground", "reduced")


def _long(wide: pa.Table, beat: str, index: int, measure: str) -> pa.Table:
    count = wide.num_rows
    columns = {
        "beat": pa.array([beat] * count),
        "measure": pa.array([measure] * count),
        **{name: wide[name] for name in KEPT},
        "y": pc.cast(wide[f"y{index}"], pa.int64()),
        "x": pc.cast(wide[f"x{index}"], pa.int64()),
        "balls": wide["balls"],
    }
    return pa.table(columns).cast(TALLIES)
