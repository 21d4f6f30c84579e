"""SQL text literals, and a query that counts."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any


def quoted(value: object) -> str:
    """A text literal."""
    text = str(value).replace("'", "''")
    return f"'{text}'"


def quoted_list(values: Iterable[object]) -> str:
    """Text literals with commas between."""
    return ", ".join(quoted(value) for value in values)


def count(db: Any, query: str) -> int:
    """The one number that a query gives; nothing is nought."""
    return int(db.execute(query).fetchall()[0][0] or 0)
