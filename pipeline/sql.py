"""SQL text literals."""

from __future__ import annotations

from collections.abc import Iterable


def quoted(value: object) -> str:
    """A text literal."""
    text = str(value).replace("'", "''")
    return f"'{text}'"


def quoted_list(values: Iterable[object]) -> str:
    """Text literals with commas between."""
    return ", ".join(quoted(value) for value in values)
