"""Of a brief: its charts, its facts, the brief in short."""

from __future__ import annotations

from typing import Any


def charts_of_format_0(found: Any) -> dict[str, Any]:
    """A bare list of charts."""
    return {"charts": found}


def facts_of_format_0(found: Any) -> dict[str, Any]:
    """A bare list of facts."""
    return {"facts": found}


def summary_of_format_0(found: Any) -> dict[str, Any]:
    """The same fields without a format's number."""
    return dict(found)
