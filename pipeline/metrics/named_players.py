"""Who is meant: players by name or id, by a tag of the players' sheet, or by a topic's list."""

from __future__ import annotations

from typing import TYPE_CHECKING

import duckdb

from pipeline.contracts.selection import Person
from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.sql import quoted

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.selection import Selection
    from pipeline.config.views import MetricsView


def read_people(db: duckdb.DuckDBPyConnection, players: str) -> list[Person]:
    """Everyone who played, with a name that is theirs alone ('label') and their tags as a list."""
    rows = db.sql(f"SELECT * FROM read_parquet({quoted(players)})").to_arrow_table().to_pylist()
    return [
        Person(**{**row, "tags": [t.strip() for t in row["tags"].split(";") if t.strip()]})
        for row in rows
    ]


def with_people(view: MetricsView, people: list[Person]) -> list[AnyBeat]:
    """The view's beats with every player, tag and list of a `where` as ids.

    Raises UserError for a name that nobody or more than one bears, and for an unknown tag.
    """
    problems: list[Problem] = []
    lists = {
        name: _ids(named, people, f"list '{name}'", view.file, problems)
        for name, named in view.lists.items()
    }
    beats = [_resolved(beat, people, lists, view.file, problems) for beat in view.beats]
    if problems:
        raise UserError(problems)
    return beats


def _resolved(
    beat: AnyBeat,
    people: list[Person],
    lists: dict[str, list[str]],
    file: str,
    problems: list[Problem],
) -> AnyBeat:
    place = f"beat '{beat.id}'"
    update: dict[str, object] = {"where": _where(beat.where, people, lists, place, file, problems)}
    control = beat.held_against
    if control:
        where = _where(control.where, people, lists, f"{place}, control", file, problems)
        update["control"] = control.model_copy(update={"where": where})
    return beat.model_copy(update=update)


def _where(
    where: Selection,
    people: list[Person],
    lists: dict[str, list[str]],
    place: str,
    file: str,
    problems: list[Problem],
) -> Selection:
    update: dict[str, list[str]] = {}
    given = where.chosen()
    for role in ("bowler", "batter"):
        if role in given:
            update[role] = _ids(given[role], people, place, file, problems)
        if (tag := f"{role}_tag") in given:
            update[tag] = _tagged(given[tag], people, lists, place, file, problems)
    return where.model_copy(update=update)


def _ids(
    names: list[str], people: list[Person], place: str, file: str, problems: list[Problem]
) -> list[str]:
    found = []
    for name in names:
        bearing = [p.id for p in people if name in (p.id, p.label)]
        bearing = bearing or [p.id for p in people if p.name == name]
        if len(bearing) == 1:
            found += bearing
            continue
        if bearing:
            labels = ", ".join(p.label for p in people if p.id in bearing)
            message = f"{place}: {len(bearing)} players are called '{name}'; write one of: {labels}"
        else:
            hint = did_you_mean(name, [p.label for p in people])
            message = f"{place}: no player '{name}' in the data{hint}"
        problems.append(Problem(file, message))
    return found


def _tagged(
    tags: list[str],
    people: list[Person],
    lists: dict[str, list[str]],
    place: str,
    file: str,
    problems: list[Problem],
) -> list[str]:
    there = sorted({tag for person in people for tag in person.tags} | set(lists))
    found: set[str] = set()
    for tag in tags:
        if tag not in there:
            hint = did_you_mean(tag, there) if there else "; no player has any tag"
            problems.append(Problem(file, f"{place}: no tag or list '{tag}'{hint}"))
        found |= set(lists.get(tag, [p.id for p in people if tag in p.tags]))
    return sorted(found)
