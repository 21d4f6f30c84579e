"""Who is meant: players by name or id, by a tag of the players' sheet, or by a topic's list."""

from __future__ import annotations

from typing import TYPE_CHECKING

import duckdb

from pipeline.contracts.selection import Person
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.metrics.control import control_place
from pipeline.sql import quoted
from pipeline.topic_places import dotted, in_beat

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.selection import Selection
    from pipeline.config.views import MetricsView


def read_people(db: duckdb.DuckDBPyConnection, players: str) -> list[Person]:
    """Everyone who played, with a name that is theirs alone ('label') and their tags as a list."""
    columns = ", ".join(Person.__struct_fields__)
    query = f"SELECT {columns} FROM read_parquet({quoted(players)})"
    rows = db.sql(query).to_arrow_table().to_pylist()
    return [
        Person(**{**row, "tags": [t.strip() for t in row["tags"].split(";") if t.strip()]})
        for row in rows
    ]


def with_people(view: MetricsView, people: list[Person]) -> list[AnyBeat]:
    """The view's beats with every player, tag and list of a `where` as ids.

    Raises UserError for a name that nobody or more than one bears, and for an unknown tag.
    """
    known = _Known(people, view.file)
    for name, named in view.lists.items():
        known.lists[name] = known.ids(named, f"list '{name}'", dotted(("lists", name)))
    beats = [_resolved(beat, view, known) for beat in view.beats]
    if known.problems:
        raise UserError(known.problems)
    return beats


class _Known:
    """Who played, the topic's lists of them, and what is wrong with the names that it uses."""

    def __init__(self, people: list[Person], file: str) -> None:
        self.people, self.file = people, file
        self.lists: dict[str, list[str]] = {}
        self.problems: list[Problem] = []

    def ids(self, names: list[str], said: str, where: str) -> list[str]:
        """The id that each name stands for; `said` and `where` are of the place that names them."""
        found = []
        for at, name in enumerate(names):
            bearing = [p.id for p in self.people if name in (p.id, p.label)]
            bearing = bearing or [p.id for p in self.people if p.name == name]
            if len(bearing) == 1:
                found += bearing
            elif bearing:
                labels = ", ".join(p.label for p in self.people if p.id in bearing)
                message = f"{len(bearing)} players are called '{name}'; write one of: {labels}"
                self._wrong(f"{said}: {message}", where, at)
            else:
                hint = did_you_mean(name, [p.label for p in self.people])
                self._wrong(f"{said}: no player '{name}' in the data{hint}", where, at)
        return found

    def tagged(self, tags: list[str], said: str, where: str) -> list[str]:
        """The ids of everybody of these tags and lists, each once."""
        there = sorted({tag for person in self.people for tag in person.tags} | set(self.lists))
        found: set[str] = set()
        for at, tag in enumerate(tags):
            if tag not in there:
                hint = did_you_mean(tag, there) if there else "; no player has any tag"
                self._wrong(f"{said}: no tag or list '{tag}'{hint}", where, at)
            found |= set(self.lists.get(tag, [p.id for p in self.people if tag in p.tags]))
        return sorted(found)

    def _wrong(self, message: str, where: str, at: int) -> None:
        self.problems.append(Problem(self.file, message, where=f"{where}[{at + 1}]"))


def _resolved(beat: AnyBeat, view: MetricsView, known: _Known) -> AnyBeat:
    said = f"beat '{beat.id}'"
    place = in_beat(view.beats, beat, "where")
    update: dict[str, object] = {"where": _where(beat.where, known, said, place)}
    control = beat.held_against
    if control:
        place = control_place(view.beats, beat, control, "where")
        where = _where(control.where, known, f"{said}, control", place)
        update["control"] = control.model_copy(update={"where": where})
    return beat.model_copy(update=update)


def _where(where: Selection, known: _Known, said: str, place: str) -> Selection:
    update: dict[str, list[str]] = {}
    given = where.chosen()
    for role in ("bowler", "batter"):
        if role in given:
            update[role] = known.ids(given[role], said, f"{place}.{role}")
        if (tag := f"{role}_tag") in given:
            update[tag] = known.tagged(given[tag], said, f"{place}.{tag}")
    return where.model_copy(update=update)
