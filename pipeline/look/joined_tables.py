"""Tables of a database beside each other: a query with as many of their columns as are asked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

BASE = "balls"  # what the table with a row a delivery is called in the query


class Link(NamedTuple):
    """`column` of the table called `alias` is the `key` of table `other`, called `name` here."""

    alias: str
    column: str
    other: str
    key: str
    name: str


class Joined(NamedTuple):
    """The table of deliveries, and what each column of the query is of: (a table's name, a column).

    `key` is a column of the table of deliveries that tells them apart, if there is one.
    """

    table: str
    columns: dict[str, tuple[str, str]]
    links: list[Link]
    key: str | None

    def sql(self, names: Iterable[str] | None = None, order: Sequence[str] = ()) -> str:
        """The query for some columns, with the tables that they need, or for all."""
        asked = list(self.columns if names is None else dict.fromkeys(names))
        chosen = [f"{_place(*self.columns[name])} AS {name_in_sql(name)}" for name in asked]
        lines = ["SELECT", *_listed(chosen), f"FROM {name_in_sql(self.table)} AS {BASE}"]
        for link in self._needed(asked):
            called = name_in_sql(link.name)
            key, value = _place(link.name, link.key), _place(link.alias, link.column)
            lines.append(f"LEFT JOIN {name_in_sql(link.other)} AS {called} ON {key} = {value}")
        if order:
            lines.append(f"ORDER BY {', '.join(order)}")
        return "\n".join(lines)

    def place(self, name: str) -> str:
        """A column of the query by its table's name, in SQL."""
        return _place(*self.columns[name])

    def _needed(self, names: Iterable[str]) -> list[Link]:
        """Links of the tables of some columns, and those that lead there."""
        tables = {self.columns[name][0] for name in names}
        for link in reversed(self.links):
            if link.name in tables:
                tables.add(link.alias)
        return [link for link in self.links if link.name in tables]


def name_in_sql(name: str) -> str:
    """An identifier, whatever is in it."""
    doubled = name.replace('"', '""')
    return f'"{doubled}"'


def _place(table: str, column: str) -> str:
    return f"{name_in_sql(table)}.{name_in_sql(column)}"


def _listed(items: Sequence[str]) -> list[str]:
    """A line each, with commas between."""
    return [f"  {item}," for item in items[:-1]] + [f"  {items[-1]}"]
