"""The tables of a database, each with its head: which of them has a row a delivery."""

from __future__ import annotations

from pathlib import Path

from pipeline.errors import Problem, UserError, did_you_mean
from pipeline.ingest.databases import kind_of, rows_of
from pipeline.look.joined_tables import name_in_sql
from pipeline.look.joins import Tables, joined
from pipeline.look.mapped import LEAST_OF_A_BALL, mapped, of_a_ball
from pipeline.look.sampled import Column
from pipeline.look.table_head import ROWS, Head

LISTED = {
    "sqlite": "SELECT name FROM sqlite_master WHERE type IN ('table', 'view') "
    "AND name NOT LIKE 'sqlite_%' ORDER BY name",
    "duckdb": "SELECT table_name FROM information_schema.tables "
    "WHERE table_schema = 'main' ORDER BY table_name",
}


def tables_of(path: Path) -> Tables:
    """The columns of every table and view that has rows, as far as their heads go."""
    names = [str(row[0]) for row in _cells(path, LISTED[kind_of(path)])]
    heads = {name: columns_of(path, f"SELECT * FROM {name_in_sql(name)}") for name in names}
    found = {name: columns for name, columns in heads.items() if columns and columns[0].cells}
    if not found:
        raise UserError(Problem(str(path), "no table with rows in it"))
    return found


def columns_of(path: Path, query: str) -> list[Column]:
    """The columns of a query's first rows, as text; a null is a blank cell."""
    asked = rows_of(path, f"SELECT * FROM ({query}) AS asked LIMIT {ROWS}", str(path))
    cells: list[list[str]] = [[] for _ in asked.names]
    for batch in asked.blocks:
        for into, column in zip(cells, batch.columns, strict=True):
            into += [_cell(cell) for cell in column.to_pylist()]
    return [Column(name, column) for name, column in zip(asked.names, cells, strict=True)]


def _cell(cell: object) -> str:
    if cell is None:
        return ""
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return str(cell)


def _cells(path: Path, query: str) -> list[tuple[object, ...]]:
    asked = rows_of(path, query, str(path))
    return [tuple(row.values()) for batch in asked.blocks for row in batch.to_pylist()]


def of_balls(path: Path, tables: Tables, wanted: str | None) -> str:
    """The table with a row a delivery: the one that is asked for, or that has most of a ball.

    Raises UserError where there is none, with the tables that there are.
    """
    if wanted is not None:
        if wanted not in tables:
            raise UserError(
                Problem(str(path), f"no table '{wanted}'{did_you_mean(wanted, tables)}")
            )
        return wanted
    marks = {name: _of_a_ball(columns) for name, columns in tables.items()}
    best = max(marks, key=lambda name: (marks[name], len(tables[name][0].cells)))
    if marks[best] < LEAST_OF_A_BALL:
        listed = ", ".join(tables)
        message = f"no table of it looks like a row a delivery; say which by --table: {listed}"
        raise UserError(Problem(str(path), message))
    return best


def _of_a_ball(columns: list[Column]) -> int:
    return len(of_a_ball(mapped(columns)))


def database_head(path: Path, wanted: str | None) -> Head:
    """The table of deliveries, with whatever its ids stand for in other tables."""
    tables = tables_of(path)
    found = joined(tables, of_balls(path, tables, wanted))
    columns = columns_of(path, found.sql())
    return Head(path, columns, len(columns[0].cells), joined=found)
