"""A database in memory for one stage's queries."""

from __future__ import annotations

from typing import Any

import duckdb

from pipeline.processors import available


def connect(threads: int | None = None, **settings: Any) -> duckdb.DuckDBPyConnection:
    """An empty one; by itself it would take as many threads as the machine has."""
    db = duckdb.connect(config={"threads": threads or available(), **settings})
    db.execute("SET enable_progress_bar = false")  # the terminal is not its own
    return db
