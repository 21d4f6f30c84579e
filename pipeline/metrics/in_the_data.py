"""Whether the data have what a topic asks for: its matches, and the values that its beats name."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import duckdb
import pyarrow as pa

from pipeline.config.cuts import CUTS
from pipeline.config.kinds.base import EventControl
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.metrics.clauses import cut_sql, data_filter
from pipeline.sql import quoted
from pipeline.topic_places import dotted, in_beat

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.project import Format
    from pipeline.config.views import MetricsView


def chosen_matches(
    db: duckdb.DuckDBPyConnection, view: MetricsView, matches: str, place: str
) -> str:
    """The topic's matches as a subquery; leaving none is an error that says what there is.

    `place` is where the topic's file asks for them: 'data', or a control.
    """
    conditions = data_filter(view.data, view.format)
    source = f"read_parquet({quoted(matches)}) m"
    chosen = f"(SELECT * FROM {source} WHERE {' AND '.join(conditions)})"
    if db.execute(f"SELECT count(*) FROM {chosen}").fetchall()[0][0]:
        return chosen
    if not db.execute(f"SELECT count(*) FROM {source}").fetchall()[0][0]:
        message = "there is no match in the data; quality.html says which files were left out"
        raise UserError(Problem(view.file, message, where="data"))
    for key in ("competition", "gender", "team_type", "source"):
        asked = getattr(view.data, key)
        there = _distinct(db, f"m.{key}", source)
        for at, value in enumerate(asked if isinstance(asked, list) else [asked] if asked else []):
            if value not in there:
                message = f"the topic's filters leave no matches: {key} '{value}' isn't in the data"
                where = dotted((place, key, at))
                message = f"{message}; it has: {', '.join(there)}"
                raise UserError(Problem(view.file, message, where=where))
    types = ", ".join(_distinct(db, "m.match_type", source))
    wanted = ", ".join(view.format.match_types)
    message = (
        f"the topic's filters leave no matches: the format asks for match type {wanted} with "
        f"{view.format.balls_per_over} balls an over; the data have {types}"
    )
    raise UserError(Problem(view.file, message, where="data.format"))


def _distinct(db: duckdb.DuckDBPyConnection, expression: str, source: str) -> list[str]:
    rows = db.execute(f"SELECT DISTINCT {expression}::VARCHAR AS v FROM {source} ORDER BY v")
    return [value for (value,) in rows.fetchall() if value is not None]


# Cuts whose values are checked elsewhere: by the topic's model, or as people.
CHECKED = ("overs", "phase", "bowler", "batter", "bowler_tag", "batter_tag")


def check_filters(
    db: duckdb.DuckDBPyConnection, view: MetricsView, deliveries: str, chosen: str
) -> None:
    """Values of open cuts (grounds, teams, seasons) must occur in the topic's data."""
    problems = []
    source = f"read_parquet({quoted(deliveries)}) d JOIN {chosen} m USING (match_id)"
    for beat in view.beats:
        for key, cut, values in _named_values(beat):
            if cut in CHECKED or CUTS[cut].values:
                continue
            there = _there(db, cut, view.format, source, chosen)
            for at, value in enumerate(values):
                if value not in there:
                    message = f"beat '{beat.id}': {CUTS[cut].name} '{value}' isn't in the data"
                    message += did_you_mean(value, there)
                    where = in_beat(view.beats, beat, *key, cut, at)
                    problems.append(Problem(view.file, message, where=where))
    if problems:
        raise UserError(problems)


def _named_values(beat: AnyKind) -> Iterator[tuple[tuple[str, ...], str, list[str]]]:
    """(the keys of a section of the beat, a cut that it names, the values it names of that)."""
    yield from ((("where",), cut, values) for cut, values in beat.where.chosen().items())
    yield from ((("of",), cut, values) for cut, values in beat.counted.items())
    if beat.groups:
        yield ("between",), beat.groups[0], list(beat.groups[1:])
    control = beat.held_against
    if control and not control.competition and not isinstance(control, EventControl):
        given = control.where.chosen()
        yield from ((("control", "where"), cut, values) for cut, values in given.items())


def _there(
    db: duckdb.DuckDBPyConnection, cut: str, form: Format, source: str, chosen: str
) -> list[str]:
    """The values that an open cut has in the topic's data."""
    if cut == "team":
        return _distinct(db, "unnest([m.team_1, m.team_2])", f"{chosen} m")
    place = source if CUTS[cut].sql.startswith("d.") else f"{chosen} m"
    return _distinct(db, cut_sql(cut, form), place)


def check_sides(db: duckdb.DuckDBPyConnection, view: MetricsView, chosen: str) -> None:
    """Women's and men's sides bear one name: cut by side, they would be added together unseen."""
    sides = {"batting_team", "bowling_team", "team"}
    asked = [beat.id for beat in view.beats if sides & set(beat.touched())]
    if asked and len(there := _distinct(db, "m.gender", f"{chosen} m")) > 1:
        message = (
            f"beat '{asked[0]}' divides by side, and the data hold {' and '.join(there)} cricket"
        )
        message = f"{message}: set data.gender, since sides share names"
        raise UserError(Problem(view.file, message, where="data"))


def nothing_compared(wide: pa.Table, beat: AnyKind) -> str:
    """Why none of a query's rows is on a side; '' where one is.

    Rows outside both windows only tell the drift.
    """
    sides = set(wide["window"].to_pylist())
    if sides - {"outside"} if beat.traits.compares == "windows" else sides:
        return ""
    known = "".join(f" of known {CUTS[cut].name}" for cut in beat.known)
    within = " in the seasons that are compared" if sides else ""
    return f"its filters leave no balls{known}{within}; widen 'where'"
