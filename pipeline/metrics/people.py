"""Who is meant: players by name or id, by a tag of the players' sheet, or by a topic's list."""

from __future__ import annotations

from typing import Any

import duckdb

from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.sql import quoted

Person = dict[str, Any]


def read_people(db: duckdb.DuckDBPyConnection, players: str) -> list[Person]:
    """Everyone who played, with a name that is theirs alone ('label') and their tags as a list."""
    rows = db.sql(f"SELECT * FROM read_parquet({quoted(players)})").to_arrow_table().to_pylist()
    return [
        {**row, "tags": [t.strip() for t in row["tags"].split(";") if t.strip()]} for row in rows
    ]


def with_people(view: dict[str, Any], people: list[Person]) -> list[dict[str, Any]]:
    """The view's beats with every player, tag and list of a `where` as ids.

    Raises UserError for a name that nobody or more than one bears, and for an unknown tag.
    """
    problems: list[Problem] = []
    lists = {
        name: _ids(named, people, f"list '{name}'", view["file"], problems)
        for name, named in view.get("lists", {}).items()
    }
    beats = [_resolved(beat, people, lists, view["file"], problems) for beat in view["beats"]]
    if problems:
        raise UserError(problems)
    return beats


def _resolved(
    beat: dict[str, Any],
    people: list[Person],
    lists: dict[str, list[str]],
    file: str,
    problems: list[Problem],
) -> dict[str, Any]:
    place = f"beat '{beat['id']}'"
    found = {**beat, "where": _where(beat["where"], people, lists, place, file, problems)}
    if beat.get("control"):
        inner = beat["control"]["where"]
        where = _where(inner, people, lists, f"{place}, control", file, problems)
        found["control"] = {**beat["control"], "where": where}
    return found


def _where(
    where: dict[str, Any],
    people: list[Person],
    lists: dict[str, list[str]],
    place: str,
    file: str,
    problems: list[Problem],
) -> dict[str, Any]:
    found = dict(where)
    for role in ("bowler", "batter"):
        if where.get(role):
            found[role] = _ids(where[role], people, place, file, problems)
        if where.get(f"{role}_tag"):
            found[f"{role}_tag"] = _tagged(
                where[f"{role}_tag"], people, lists, place, file, problems
            )
    return found


def _ids(
    names: list[str], people: list[Person], place: str, file: str, problems: list[Problem]
) -> list[str]:
    found = []
    for name in names:
        bearing = [p["id"] for p in people if name in (p["id"], p["label"])]
        bearing = bearing or [p["id"] for p in people if p["name"] == name]
        if len(bearing) == 1:
            found += bearing
            continue
        if bearing:
            labels = ", ".join(p["label"] for p in people if p["id"] in bearing)
            message = f"{place}: {len(bearing)} players are called '{name}'; write one of: {labels}"
        else:
            hint = did_you_mean(name, [p["label"] for p in people])
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
    there = sorted({tag for person in people for tag in person["tags"]} | set(lists))
    found: set[str] = set()
    for tag in tags:
        if tag not in there:
            hint = did_you_mean(tag, there) if there else "; no player has any tag"
            problems.append(Problem(file, f"{place}: no tag or list '{tag}'{hint}"))
        found |= set(lists.get(tag, [p["id"] for p in people if tag in p["tags"]]))
    return sorted(found)
