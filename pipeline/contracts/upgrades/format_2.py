"""Findings of format 2: a point of a series was named by its season, and always a whole one."""

from __future__ import annotations

from typing import Any

Plain = dict[str, Any]


def findings_of_format_2(found: Any) -> Plain:
    """Today's fields."""
    return {**found, "series": series_of_format_2(found["series"])}


def series_of_format_2(series: dict[str, list[Plain]]) -> dict[str, list[Plain]]:
    """Points with a label each."""
    return {name: [_point(point) for point in points] for name, points in series.items()}


def _point(point: Plain) -> Plain:
    others = {name: value for name, value in point.items() if name != "season"}
    return {"label": point["season"], **others}
