"""Both values of a finding in words, with what follows them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Gap, Turn
from pipeline.contracts.parts import Side
from pipeline.wording import numbers, phrases

if TYPE_CHECKING:
    from pipeline.config.measure import Measure


MOST = 6  # digits after the point that any value is told with


def unit_said(measure: Measure) -> str:
    """What follows the number: 'an over', 'per cent of balls'."""
    if measure.kind != "share" or measure.spoken.startswith("per cent"):
        return measure.spoken
    return measure.unit


def values_said(finding: Finding, measure: Measure) -> tuple[str, str]:
    """Both values in words, to what their intervals bear; they part where the shown ones do.

    Values in points also subtract to their difference, to a whole point; those of a change that can
    be told are never said alike.
    """
    decimals = digits_said(finding, measure)
    a, b = (phrases.value_said(_value(side), decimals) for side in _sides(finding))
    return a, b


def digits_said(finding: Finding, measure: Measure) -> int:
    """Digits after the point that a line says both values with."""
    sides, most = _sides(finding), decimals_of(finding, measure)
    a, b = (_value(side) for side in sides)
    widths = [
        (side.high - side.low) / 2
        for side in sides
        if side.low is not None and side.high is not None
    ]
    decimals = max((numbers.bearable(width, most) for width in widths), default=most)
    share = finding.kind == "share" and not isinstance(finding, Turn)
    return _digits_apart(a, b, decimals, most, share)


def _sides(finding: Finding) -> tuple[Side, Side]:
    if isinstance(finding, Gap):
        raise ValueError(f"{finding.id} is a gap: its sides are changes, not values")
    return finding.a, finding.b


def decimals_of(finding: Finding, measure: Measure) -> int:
    """The digits of the measure; more where a change that can be told would not show in them."""
    decimals, values = measure.decimals, (finding.a, finding.b)
    if finding.verdict != "changed" or isinstance(finding, Gap):
        return decimals
    a, b = (side.value for side in values if isinstance(side, Side))
    if a is None or b is None or a == b:
        return decimals
    while decimals < MOST and numbers.rounded(a, decimals) == numbers.rounded(b, decimals):
        decimals += 1
    return decimals


def both_said(a: float, b: float, decimals: int, most: int, share: bool = True) -> tuple[str, str]:
    """Two values in words, with more decimals, to `most`, where fewer would tell them wrongly."""
    decimals = _digits_apart(a, b, decimals, most, share)
    return phrases.value_said(a, decimals), phrases.value_said(b, decimals)


def _digits_apart(a: float, b: float, decimals: int, most: int, share: bool) -> int:
    while decimals < most and not (
        _honest(a, b, decimals, most) and (not share or _subtract(a, b, decimals))
    ):
        decimals += 1
    return decimals


def _value(side: Side) -> float:
    if side.value is None:
        raise ValueError("a side without a ball has no value to say")
    return side.value


def _honest(a: float, b: float, decimals: int, most: int) -> bool:
    """Rounded so, they don't meet where they are shown apart, nor part where they hardly differ."""
    if numbers.rounded(a, decimals) == numbers.rounded(b, decimals):
        return numbers.rounded(a, most) == numbers.rounded(b, most)
    return abs(b - a) > 0.7 * 10.0**-decimals


def _subtract(a: float, b: float, decimals: int) -> bool:
    """Whether two shares, said so, part by the points that are told of them."""
    return numbers.subtracts(a, b, b - a, (decimals, decimals))
