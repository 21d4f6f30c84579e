"""Alternative text: what a reader who can't see the drawing needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.charts.rows import Row
from pipeline.charts.time_axis import placed
from pipeline.contracts.findings import Point
from pipeline.text import capitalised
from pipeline.wording import numbers
from pipeline.wording.labels import measured_in
from pipeline.wording.shown_numbers import DIFFERENCES

if TYPE_CHECKING:
    from pipeline.config.measure import Measure

PART = " (part of it)"


def describe_nothing(measure: Measure, why: str) -> str:
    """That there is nothing to draw, and why."""
    return f"{capitalised(measure.label)}. {why}"


def describe_rows(measure: Measure, rows: list[Row], sides: tuple[str, str]) -> str:
    """Each row's two values, change, interval and verdict."""
    told = "; ".join(_row(row, sides, measure.decimals) for row in rows)
    under = f" {DIFFERENCES}" if any(row.mark for row in rows) else ""
    return f"{capitalised(measured_in(measure))}. {told}.{under}"


def _row(row: Row, sides: tuple[str, str], decimals: int) -> str:
    if row.change is None:
        return f"{row.name}: {row.interval_shown}"
    known = [
        f"{side} {numbers.shown(value, decimals)}, "
        for value, side in zip((row.a, row.b), sides, strict=True)
        if value is not None
    ]
    told = f"{row.verdict}, {row.among}" if row.among else row.verdict
    change = f"{row.change_shown}{row.mark} ({row.interval_shown})"
    return f"{row.name}: {''.join(known)}{change}, {told}"


def describe_series(measure: Measure, every: str, series: list[Point]) -> str:
    """Each point's value, in the order of time."""
    told = ", ".join(
        f"{point.label}{PART if point.part else ''} {numbers.shown(point.value, measure.decimals)}"
        for point in (each.point for each in placed(series))
        if point.value is not None
    )
    return f"{capitalised(measure.label)} by {every}: {told}."
