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
    Selection,
)
from pipeline.contracts.timing import OUTSIDE, Timing, Windows
from pipeline.database import connect
from pipeline.errors import Problem, UserError
from pipeline.event_of import event_of
from pipeline.metrics.cells import with_cells
from pipeline.metrics.compared import Timings, compared_and_counted
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
from pipeline.metrics.matches import Played, played, seasons_of
from pipeline.metrics.named_players import read_people, with_people
from pipeline.metrics.period_list import timing_of
from pipeline.metrics.query import OF_MATCH, BeatQuery, Tables, beat_query
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
    db = connect()
    deliveries, matches = tables["deliveries"], tables["matches"]
    chosen = chosen_matches(db, view, matches, "data")
    people = read_people(db, tables["players"])
    view = view.model_copy(update={"beats": with_people(view, people)})
    check_filters(db, view, deliveries, chosen)
    check_sides(db, view, chosen)
    matches_played = played(db, chosen, deliveries)
    seasons = seasons_of(matches_played)
    timings = _timings(view, matches_played)
    parts: list[pa.Table] = []
    beats = {}
    for beat in view.beats:
        windows = timings[beat.about].windows
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
    compared, counted = compared_and_counted(view, seasons, timings)
    held = describe(db, deliveries, chosen, leant_on(view.beats), compared, counted)
    held = msgspec.structs.replace(held, sources=sources_of(db, tallies, matches))
    selection = Selection(
        data=held,
        corrections=touching(db, corrections, deliveries, chosen),
        seasons=seasons,
        timing=timings[None],
        others={about: timing for about, timing in timings.items() if about},
        newcomers={
            about or "": newcomers(db, chosen, timing.windows)
            for about, timing in timings.items()
            if timing.windows
        },
        beats=beats,
    )
    return tallies, selection


def _timings(view: MetricsView, matches: list[Played]) -> Timings:
    """The windows and periods of the topic's event, and of every other that a beat is about."""
    found: Timings = {}
    problems: list[Problem] = []
    for about in (None, *view.others):
        try:
            found[about] = _timing(view, about, matches)
        except UserError as error:
            problems += error.problems
    if problems:
        raise UserError(problems)
    return found


def _timing(view: MetricsView, about: str | None, matches: list[Played]) -> Timing:
    event = view.others[about] if about else view.event
    windows = choose_windows(matches, seasons_of(matches), event, view.file) if event else None
    asked = [beat.point for beat in view.beats if beat.about == about]
    return timing_of(matches, event, windows, asked)


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
    event = event_of(view, beat)
    if control.competition and event:
        chosen = chosen_matches(db, inner, tables["matches"], place)
        windows = own_windows(
            played(db, chosen, tables["deliveries"]), event, control, view.file, place
        )
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
    """A trend's matches as the windows they are in; all are outside where there is no event."""
    of_matches = zip(table["season"].to_pylist(), table["date"].to_pylist(), strict=True)
    named = [windows.side(*match) if windows else OUTSIDE for match in of_matches]
    return table.set_column(table.column_names.index("window"), "window", pa.array(named))


def _renamed(table: pa.Table) -> pa.Table:
    """'before' as 'control before', so that no beat's own rows are mixed with its control's."""
    named = pc.binary_join_element_wise("control", table["window"], " ")
    return table.set_column(table.column_names.index("window"), "window", named)


KEPT = ("cell", "window", *OF_MATCH)


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
