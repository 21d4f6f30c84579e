"""What puts names beside the ids of a database: which table each id is of, from words and cells.

Nothing is asked of declared keys, which many databases lack: a column leads to another table if its
words name that table and every cell of it is found once in that table's first column.
"""

from __future__ import annotations

from pipeline.look.folded_names import folded
from pipeline.look.joined_tables import BASE, Joined, Link
from pipeline.look.sampled import Column

Tables = dict[str, list[Column]]
Found = tuple[dict[str, tuple[str, str]], list[Link]]
DEPTH = 2  # a ground's city is two tables from a ball
PEOPLE = frozenset({"batter", "nonstriker", "bowler", "out", "player"})
SIDES = frozenset({"batting", "bowling", "winner", "toss", "opposition", "team"})
WICKETS = frozenset({"wicket", "out"})
ENDS = ("_id", "_no", "_key", "_code", "_ref", "Id", "ID", " id", " ID")


def joined(tables: Tables, base: str) -> Joined:
    """The table with a row a delivery, with the columns of all that its ids lead to."""
    columns, links = _of(tables, base, BASE, "", DEPTH, {base})
    keys = [column.name for column in tables[base] if is_key(column)]
    for other in tables:
        if other != base and folded(other) & WICKETS:
            found = _back(tables, base, other)
            if found:
                columns, links = {**columns, **found[0]}, [*links, *found[1]]
                break
    return Joined(base, columns, links, next(iter(keys), None))


def _of(tables: Tables, table: str, alias: str, before: str, depth: int, seen: set[str]) -> Found:
    """The columns of a table, and of those that its ids lead to, each under a name of its own."""
    columns: dict[str, tuple[str, str]] = {}
    links: list[Link] = []
    for column in tables[table]:
        columns[f"{before}{column.name}"] = (alias, column.name)
        to = _leads_to(tables, column, seen) if depth else None
        if to:
            other, key = to
            stem = f"{before}{_stem(column.name)}"
            links.append(Link(alias, column.name, other, key, stem))
            inner, further = _of(tables, other, stem, f"{stem}_", depth - 1, {*seen, other})
            columns |= {name: place for name, place in inner.items() if place != (stem, key)}
            links += further
    return columns, links


def _stem(name: str) -> str:
    """'batter_id' as 'batter'."""
    found = next((end for end in ENDS if name.endswith(end) and len(name) > len(end)), None)
    return name.removesuffix(found) if found else f"{name}_of"


def _leads_to(tables: Tables, column: Column, seen: set[str]) -> tuple[str, str] | None:
    """The other table and its key, whose words and cells the column has."""
    words = folded(column.name) - {"id"}
    for other, columns in tables.items():
        about = folded(other)
        if other in seen or len(columns) < 2 or about & (WICKETS | {"ball"}):
            continue
        if not (words & about or (words & PEOPLE and about & PEOPLE) or _side(words, about)):
            continue
        key = columns[0]
        if column.distinct and is_key(key) and set(column.distinct) <= set(key.cells):
            return other, key.name
    return None


def _side(words: frozenset[str], about: frozenset[str]) -> bool:
    return bool(words & SIDES) and "team" in about


def is_key(column: Column) -> bool:
    """Whether it tells the rows apart."""
    return "" not in column.cells and len(set(column.cells)) == len(column.cells) > 0


def _back(tables: Tables, base: str, other: str) -> Found | None:
    """A table of dismissals, by the column that says of which delivery each is."""
    for key in tables[base]:
        own = (folded(key.name) | folded(base)) & {"ball"} or folded(key.name)
        for column in tables[other] if is_key(key) else []:
            if folded(column.name) & own and set(column.distinct) <= set(key.cells):
                link = Link(BASE, key.name, other, column.name, "wicket")
                columns, links = _of(tables, other, "wicket", "wicket_", DEPTH - 1, {base, other})
                return columns, [link, *links]
    return None
