"""Running a topic's queries and keeping what they were."""

from __future__ import annotations

from typing import TYPE_CHECKING

import duckdb
import msgspec
import pyarrow as pa
import pyarrow.compute as pc

from pipeline.config.cuts import leant_on
from pipeline.config.kinds.base import EventControl
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
from pipeline.errors import Problem, UserError
from pipeline.metrics.cells import with_cells
from pipeline.metrics.compared import compared_and_counted
from pipeline.metrics.control import (
    control_beat,
    control_data,
    control_place,
    matched,
    own_windows,
)
from pipeline.metrics.holdings import describe, newcomers, sources_of, touching
from pipeline.metrics.in_the_data import (
    check_filters,
    check_sides,
    chosen_matches,
    nothing_compared,
)
from pipeline.metrics.named_players import read_people, with_people
from pipeline.metrics.query import BeatQuery, Tables, beat_query
from pipeline.metrics.windows import choose_windows
from pipeline.tables import TALLIES
from pipeline.topic_places import in_beat

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind, Control
    from pipeline.config.views import MetricsView


def tally(view: MetricsView, tables: Tables, corrections: list[Fix]) -> tuple[pa.Table, Selection]:
    """All tallies of a topic, and the selection: windows, cells, queries, what the data hold.

    `tables` are the paths of deliveries, dismissals, matches and players. `corrections` are all
    that were applied; the selection keeps those that touch the topic's balls.
    """
    db = duckdb.connect()
    deliveries, matches = tables["deliveries"], tables["matches"]
    chosen = chosen_matches(db, view, matches, "data")
    people = read_people(db, tables["players"])
    view = view.model_copy(update={"beats": with_people(view, people)})
    check_filters(db, view, deliveries, chosen)
    check_sides(db, view, chosen)
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
    tallies = pa.concat_tables(parts).cast(TALLIES)
    compared, counted = compared_and_counted(view, seasons, windows)
    held = describe(db, deliveries, chosen, leant_on(view.beats), compared, counted)
    held = msgspec.structs.replace(held, sources=sources_of(db, tallies, matches))
    selection = Selection(
        data=held,
        corrections=touching(db, corrections, deliveries, chosen),
        seasons=seasons,
        windows=windows,
        newcomers=newcomers(db, chosen, windows) if windows else None,
        beats=beats,
    )
    return tallies, selection


def _one_beat(
    db: duckdb.DuckDBPyConnection,
    beat: AnyKind,
    view: MetricsView,
    windows: Windows | None,
    tables: Tables,
    people: list[Person],
) -> tuple[list[pa.Table], BeatSelection]:
    """(the beat's tallies, one table a measure; its query and cells).

    Raises UserError for a beat without balls to compare, or with none in any of its rows.
    """
    query = beat_query(beat, view, windows, tables)
    wide = db.sql(query.text).to_arrow_table()
    where = in_beat(view.beats, beat, "where")
    if lacking := nothing_compared(wide, beat):
        raise UserError(Problem(view.file, f"beat '{beat.id}': {lacking}", where=where))
    made, cells = _named(wide, query, beat, view, people)
    if not beat.traits.has_whole and not any(cell.known and cell.values for cell in cells):
        message = f"beat '{beat.id}': none of its balls is in any of its rows; widen 'where'"
        raise UserError(Problem(view.file, message, where=where))
    there = {cell.person for cell in cells}
    named = {person.id: person for person in people if person.id in there}
    return made, BeatSelection(query=query.text, cells=cells, people=named)


def _named(
    wide: pa.Table, query: BeatQuery, beat: AnyKind, view: MetricsView, people: list[Person]
) -> tuple[list[pa.Table], list[Cell]]:
    """(tallies, one table a measure; the cells that their rows are of)."""
    wide, cells = with_cells(wide, query, beat, view, people)
    return [_long(wide, beat.id, i, name) for i, name in enumerate(query.measures)], cells


def _controlled(
    db: duckdb.DuckDBPyConnection,
    beat: AnyKind,
    control: Control,
    view: MetricsView,
    windows: Windows | None,
    tables: Tables,
    cells: list[Cell],
) -> tuple[list[pa.Table], ControlSelection]:
    """The tallies of a beat's control, in windows of their own, and which cell answers to which.

    The event's control has none where the beat's own filters leave it no balls.
    """
    place = control_place(view.beats, beat, control)
    inner = view.model_copy(update={"data": control_data(view.data, control)})
    if control.competition and view.event:
        chosen = chosen_matches(db, inner, tables["matches"], place)
        windows = own_windows(_seasons(db, chosen), view.event, control, view.file, place)
    asked = control_beat(beat, control)
    query = beat_query(asked, inner, windows, tables)
    wide = db.sql(query.text).to_arrow_table()
    if lacking := nothing_compared(wide, asked):
        if isinstance(control, EventControl):
            return [], ControlSelection(name=control.name, query=query.text, pairs={})
        message = f"beat '{beat.id}', control: {lacking}"
        raise UserError(Problem(view.file, message, where=f"{place}.where"))
    made, there = _named(wide, query, asked, inner, [])
    if beat.traits.compares == "series":
        made = [_in_windows(table, windows) for table in made]
    pairs = matched(beat, control, view.data, cells, there, view.file, place)
    made = [_renamed(table) for table in made]
    return made, ControlSelection(name=control.name, query=query.text, pairs=pairs)


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
