"""A finding's numbers as they stand in a table or on a card: shown, never said."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.finding import Finding, Gap
from pipeline.contracts.parts import GroupChange, Side
from pipeline.text import slug
from pipeline.wording import numbers
from pipeline.wording.confidence import interval_heading
from pipeline.wording.scales import change_of, own_change
from pipeline.wording.values import decimals_of

if TYPE_CHECKING:
    from pipeline.config.measure import Measure

NONE = "–"
UNROUNDED = "†"  # at a difference that the values beside it, as shown, do not give
DIFFERENCES = f"{UNROUNDED} Differences are taken before rounding."
BEFORE_ROUNDING = f"{UNROUNDED} before rounding"  # the same on a drawing
POINTS = 1  # decimals of a difference in points


class Card(NamedTuple):
    """A headline's number, the end of the fact's id that it is, the two lines under it.

    `mark` is what stands at the number where the values do not subtract to it as shown.
    """

    number: str
    fact: str
    sides: str
    detail: str
    mark: str = ""


def both_shown(finding: Finding, measure: Measure) -> tuple[str, str]:
    """Both values; of a gap, both groups' own changes."""
    if isinstance(finding, Gap):
        return _own(finding, finding.a), _own(finding, finding.b)
    decimals = decimals_of(finding, measure)
    return _value(finding.a, decimals), _value(finding.b, decimals)


def _value(side: Side, decimals: int) -> str:
    return NONE if side.value is None else numbers.shown(side.value, decimals)


def _own(finding: Gap, group: GroupChange) -> str:
    change = own_change(group, finding.kind)
    return change.shown() if change else NONE


def difference_shown(finding: Finding, measure: Measure) -> str:
    """The difference in the measure's units; of a share in points."""
    if finding.kind == "share":
        return change_of(finding).shown()
    return numbers.shown(finding.told.difference.value, measure.decimals, signed=True)


def unrounded(finding: Finding, measure: Measure) -> str:
    """The mark of a difference that is not that of the two values as they are shown.

    None where the sides are no two values with this difference: of a gap in per cent, where one
    change is divided by the other, and of a step beside a trend.
    """
    ends = _values(finding)
    if finding.effect is None or ends is None:
        return ""
    difference, share = finding.told.difference.value, finding.kind == "share"
    if not math.isclose(ends[1] - ends[0], difference, rel_tol=1e-6, abs_tol=1e-9):
        return ""
    of_values = POINTS if isinstance(finding, Gap) else decimals_of(finding, measure)
    places = (of_values, POINTS if share else measure.decimals)
    return "" if numbers.subtracts(*ends, difference, places) else UNROUNDED


def taken_unrounded(finding: Finding, measure: Measure) -> str | None:
    """The subtraction behind a difference that is marked: '4.15379 − 4.48712, then rounded'."""
    ends = _values(finding)
    if ends is None or not unrounded(finding, measure):
        return None
    first, second = (numbers.figures(end) for end in ends)
    return f"{second} {numbers.MINUS} {first}, then rounded"


def _values(finding: Finding) -> tuple[float, float] | None:
    """The two numbers whose difference is told, where there are two."""
    if isinstance(finding, Gap):
        groups = [group.difference for group in (finding.a, finding.b)]
        known = [group.value for group in groups if group and finding.kind == "share"]
    else:
        known = [side.value for side in (finding.a, finding.b) if side.value is not None]
    return (known[0], known[1]) if len(known) == len(finding.sides) else None


def detectable_shown(finding: Finding) -> str:
    """The smallest true change that such data would show four times in five."""
    effect = finding.told
    if finding.kind == "share":
        seen = effect.detectable_difference
        return f"{numbers.shown(seen, 1)} pts" if seen else NONE
    seen_change = effect.detectable_change
    return NONE if seen_change is None else numbers.percent(seen_change, 1, signed=False)


def card_of(finding: Finding, sides: tuple[str, str], measure: Measure) -> Card:
    """A change's own number: of a share in points, else in per cent, with the units under it."""
    change, share = change_of(finding), finding.kind == "share"
    difference = difference_shown(finding, measure)
    unit = "" if isinstance(finding, Gap) else f" {measure.unit}"
    (first, second), (a, b) = sides, both_shown(finding, measure)
    mark = unrounded(finding, measure)
    units = "" if share else f"{difference}{mark} {measure.unit}; "
    heading = interval_heading(finding.told.level)
    return Card(
        difference if share else change.shown(),
        "difference" if share else "change",
        f"{first} {a}, {second} {b}{unit}",
        f"{units}{heading} {change.interval()} {'points' if share else 'per cent'}",
        mark if share else "",
    )


def fact_ends(finding: Finding) -> dict[str, str]:
    """The end of the fact's id that stands behind each number of a row."""
    first, second = (slug(side) for side in finding.sides)
    return {"a": first, "b": second, "difference": "difference", "change": "change"}
