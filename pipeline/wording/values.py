"""Both values of a finding in words, with what follows them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Gap
from pipeline.contracts.parts import Side
from pipeline.wording import numbers, phrases

if TYPE_CHECKING:
    from pipeline.config.measure import Measure


def unit_said(measure: Measure) -> str:
    """What follows the number: 'an over', 'per cent of balls'."""
    if measure.kind != "share" or measure.spoken.startswith("per cent"):
        return measure.spoken
    return measure.unit


def values_said(finding: Finding, measure: Measure) -> tuple[str, str]:
    """Both values in words, with just enough decimals to tell them apart when they moved."""
    if isinstance(finding, Gap):
        raise ValueError(f"{finding.id} is a gap: its sides are changes, not values")
    sides, most = (finding.a, finding.b), measure.decimals
    a, b = (_value(side) for side in sides)
    widths = [
        (side.high - side.low) / 2
        for side in sides
        if side.low is not None and side.high is not None
    ]
    decimals = max((numbers.bearable(width, most) for width in widths), default=most)
    changed = finding.verdict == "changed"
    while decimals < most and not _honest(a, b, decimals, changed):
        decimals += 1
    return phrases.value_said(a, decimals), phrases.value_said(b, decimals)


def _value(side: Side) -> float:
    if side.value is None:
        raise ValueError("a side without a ball has no value to say")
    return side.value


def _honest(a: float, b: float, decimals: int, changed: bool) -> bool:
    """Rounded so, the two neither meet when they changed nor part when they hardly differ."""
    apart = abs(float(numbers.rounded(a, decimals)) - float(numbers.rounded(b, decimals)))
    if not apart:
        return not changed
    return abs(b - a) > 0.7 * 10.0**-decimals
